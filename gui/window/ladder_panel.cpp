#include "gui/window/ladder_panel.hpp"

#include "gui/charts/ladder_picture.hpp"
#include "gui/charts/picture_view.hpp"
#include "gui/window/page_parts.hpp"

#include <QLabel>
#include <QStringList>
#include <QVBoxLayout>

namespace zeroline::window {

namespace {

constexpr int kChartHeight_px = 220;

QString settings_text(const session::LadderView& ladder)
{
    QStringList lines;
    for (const auto& at : ladder.settings) {
        lines << LadderPanel::tr("%1 set %2: mean %3 %6, error %4 (U %5), %7")
                     .arg(at.sign, at.set, at.mean, at.error, at.uncertainty, ladder.unit, at.word);
    }
    return lines.join(u'\n');
}

charts::PictureView* chart_of(const session::LadderView& ladder)
{
    auto* chart = new charts::PictureView("ladderChart", LadderPanel::tr("%1: error against setting").arg(ladder.name));
    chart->setMinimumHeight(kChartHeight_px);
    const auto picture = charts::ladder_picture(ladder, LadderPanel::tr("set, %1").arg(ladder.unit),
                                                LadderPanel::tr("error, %1").arg(ladder.unit));
    chart->show_picture({picture.across.low, picture.across.high}, [picture](const charts::Reach& part, int) {
        auto shown = picture;
        shown.across.low = part.from;
        shown.across.high = part.to;
        return shown;
    });
    return chart;
}

QWidget* part_of(const session::LadderView& ladder)
{
    return column_of({heading(LadderPanel::tr("Ladder: %1, preset '%2'").arg(ladder.name, ladder.preset)),
                      text_label("ladderLine", LadderPanel::tr("straight line through the settings"), ladder.line),
                      chart_of(ladder),
                      text_label("ladderSettings", LadderPanel::tr("settings of the ladder"), settings_text(ladder))});
}

} // namespace

LadderPanel::LadderPanel(QWidget* parent) : QWidget(parent)
{
    named(this, "ladder", tr("settings of the ladder"));
    auto* card = card_of({});
    parts_ = static_cast<QVBoxLayout*>(card->layout());
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    layout->addWidget(card);
    hide();
}

void LadderPanel::show_ladder(const session::ResultView& result)
{
    while (auto* item = parts_->takeAt(0)) {
        item->widget()->deleteLater();
        delete item;
    }
    for (const auto& ladder : result.ladder) {
        if (!ladder.settings.empty()) {
            parts_->addWidget(part_of(ladder));
        }
    }
    for (const auto& test : result.tests) {
        parts_->addWidget(text_label("test", tr("leak test and strength"), test));
    }
    setVisible(parts_->count() > 0);
}

} // namespace zeroline::window
