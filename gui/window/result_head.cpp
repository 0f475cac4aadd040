#include "gui/window/result_head.hpp"

#include "gui/window/page_parts.hpp"
#include "gui/window/tone_colours.hpp"

#include <QLabel>
#include <QStringList>
#include <QVBoxLayout>

namespace zeroline::window {

namespace {

constexpr double kHead_pt = 12.0;

/// "SIMULATED: a program sent ..." to "SIMULATED".
QString first_word(const QString& sentence) { return sentence.section(u':', 0, 0); }

} // namespace

ResultHead::ResultHead(QWidget* parent) : QWidget(parent)
{
    is_not_ = large_label("headIsNot", tr("what this record is not"), kHead_pt, true);
    verdict_ = large_label("headVerdict", tr("verdict"), kHead_pt, true);
    identity_ = large_label("identity", tr("unit, order, date and signer"), kHead_pt, true);
    for (auto* one : {is_not_, verdict_}) {
        one->setWordWrap(false);
    }
    auto* row = row_of({is_not_, verdict_, identity_});
    let_grow(row, 2);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(kPage_px, kAir_px, kPage_px, 0);
    layout->addWidget(row);
}

void ResultHead::show_result(const session::ResultView& result, const QString& identity, const QString& seal)
{
    QStringList is_not;
    if (!seal.isEmpty()) {
        is_not << first_word(seal);
    }
    for (const auto& line : result.banner) {
        is_not << first_word(line);
    }
    is_not_->setText(is_not.join(QStringLiteral(" \u00B7 ")));
    is_not_->setVisible(!is_not.isEmpty());
    fill_with(is_not_, seal.isEmpty() ? session::Tone::conditional : session::Tone::fail);
    verdict_->setText(result.sign + u' ' + result.word);
    fill_with(verdict_, result.tone);
    identity_->setText(identity);
}

} // namespace zeroline::window
