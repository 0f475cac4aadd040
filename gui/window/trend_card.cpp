#include "gui/window/trend_card.hpp"

#include "gui/charts/trend_chart.hpp"
#include "gui/window/form_fields.hpp"
#include "gui/window/page_parts.hpp"

#include <QComboBox>
#include <QLabel>
#include <QSignalBlocker>
#include <QVBoxLayout>

#include <algorithm>

namespace zeroline::window {

TrendCard::TrendCard(Words words, QWidget* parent) : QWidget(parent), words_(std::move(words))
{
    constexpr int lines = 12; // height of the chart, in lines of writing
    quantity_ = choice_field(words_.quantity, tr("quantity"));
    chart_ = new charts::TrendChart;
    chart_->setObjectName(QLatin1String(words_.chart));
    chart_->setMinimumHeight(lines * fontMetrics().height());
    drift_ = text_label(words_.drift, tr("how it drifts"));
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    layout->addWidget(card_of({heading(words_.heading), quantity_, chart_, drift_}));
    connect(quantity_, &QComboBox::currentIndexChanged, this, &TrendCard::show_quantity);
}

void TrendCard::show_figures(const unit_register::Rows& figures, const QString& first)
{
    trends_ = session::trends_of(figures);
    const QSignalBlocker quiet(quantity_);
    quantity_->clear();
    for (const auto& trend : trends_) {
        quantity_->addItem(trend.name);
    }
    quantity_->setCurrentIndex(std::max(0, quantity_->findText(first)));
    quantity_->setVisible(!trends_.empty());
    show_quantity();
}

void TrendCard::forget()
{
    show_figures(unit_register::Rows::array());
    drift_->clear();
}

void TrendCard::show_quantity()
{
    const auto at = static_cast<std::size_t>(std::max(0, quantity_->currentIndex()));
    if (at >= trends_.size()) {
        chart_->show_nothing();
        drift_->setText(words_.nothing);
        return;
    }
    chart_->show_trend(trends_[at]);
    drift_->setText(trends_[at].drift.isEmpty() ? tr("A line is drawn from four visits on.") : trends_[at].drift);
}

} // namespace zeroline::window
