#include "gui/window/number_cards.hpp"

#include "gui/window/numbers_table.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/tone_colours.hpp"

#include <QGuiApplication>
#include <QKeyEvent>
#include <QLabel>
#include <QPainter>
#include <QScrollBar>
#include <QStyledItemDelegate>

#include <algorithm>

namespace zeroline::window {

using session::NumberCard;
using session::Tone;

namespace {

constexpr int kInside_px = 8; ///< air inside a card, left and right
constexpr int kPill_px = 6;   ///< air inside the field of a verdict, left and right
constexpr double kCorner_px = 6.0;
constexpr double kLarger = 1.35;    ///< what was measured, of the letters around it
constexpr int kLettersOfCard = 32;  ///< width of one at least
constexpr int kVeryHigh_px = 10000; ///< a text may go on below for ever

QFont larger(QFont font)
{
    font.setBold(true);
    font.setPointSizeF(kLarger * font.pointSizeF());
    return font;
}

/// Where the texts of a card stand, from its upper left corner.
struct Parts {
    QRect name, measured, unit, verdict, beside;
    int height = 0;
};

class CardDelegate : public QStyledItemDelegate {
public:
    CardDelegate(const session::JudgementModel& numbers, QWidget* view)
        : QStyledItemDelegate(view), numbers_(&numbers), view_(view)
    {
    }

    bool compact = false; ///< without what stands beside, in one line where there is width for it
    QSize cell;           ///< of a card with the air behind and below it

    [[nodiscard]] Parts parts_of(const NumberCard& card, int width) const;
    [[nodiscard]] int height_of_all(int width) const;
    /// In one line: the widest name, value and verdict.
    [[nodiscard]] int one_line_px() const;
    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& /*option*/, const QModelIndex& /*index*/) const override
    {
        return cell;
    }

private:
    /// Not those of the view: its sheet makes its ground transparent.
    [[nodiscard]] static QPalette colours() { return QGuiApplication::palette(); }
    [[nodiscard]] QFontMetrics words() const { return view_->fontMetrics(); }
    [[nodiscard]] QFontMetrics figures() const { return QFontMetrics(larger(view_->font())); }
    [[nodiscard]] int measured_px(const NumberCard& card) const
    {
        return figures().horizontalAdvance(card.measured) + kAir_px + words().horizontalAdvance(card.unit);
    }
    [[nodiscard]] int verdict_px(const NumberCard& card) const
    {
        return card.verdict.isEmpty() ? 0 : words().horizontalAdvance(card.verdict) + 2 * kPill_px;
    }
    [[nodiscard]] int widest_verdict_px() const;
    [[nodiscard]] int line_px() const { return std::max(figures().height(), words().height() + kAir_px); }
    [[nodiscard]] int lines_px(const QString& text, int width) const
    {
        return words().boundingRect(0, 0, width, kVeryHigh_px, Qt::TextWordWrap, text).height();
    }
    void put_measured(Parts& parts, const NumberCard& card, int left, int top) const;
    [[nodiscard]] bool units_above(int inner) const;
    [[nodiscard]] Parts in_one_line(const NumberCard& card, int width) const;
    void paint_verdict(QPainter& painter, const QRect& where, const NumberCard& card) const;

    const session::JudgementModel* numbers_;
    QWidget* view_;
};

int CardDelegate::widest_verdict_px() const
{
    int widest = 0;
    for (int row = 0; row < numbers_->rowCount(); ++row) {
        widest = std::max(widest, verdict_px(numbers_->card(row)));
    }
    return widest;
}

int CardDelegate::one_line_px() const
{
    int name_px = 0, value_px = 0;
    for (int row = 0; row < numbers_->rowCount(); ++row) {
        const auto card = numbers_->card(row);
        name_px = std::max(name_px, words().horizontalAdvance(card.name));
        value_px = std::max(value_px, measured_px(card));
    }
    return name_px + value_px + widest_verdict_px() + 2 * kGap_px + 2 * kInside_px;
}

void CardDelegate::put_measured(Parts& parts, const NumberCard& card, int left, int top) const
{
    parts.measured = {left, top, figures().horizontalAdvance(card.measured), line_px()};
    parts.unit = {parts.measured.right() + 1 + kAir_px, top, words().horizontalAdvance(card.unit), line_px()};
}

Parts CardDelegate::in_one_line(const NumberCard& card, int width) const
{
    const int verdict_left = width - kInside_px - widest_verdict_px();
    Parts parts;
    put_measured(parts, card, verdict_left - kGap_px - measured_px(card), kAir_px);
    // All that is left: at its exact width a name may wrap.
    parts.name = {kInside_px, kAir_px, parts.measured.left() - kInside_px, line_px()};
    parts.verdict = {verdict_left, kAir_px, verdict_px(card), line_px()};
    parts.height = line_px() + 2 * kAir_px;
    return parts;
}

/// Where a verdict has no room beside number and unit, in any card, the units stand behind the names of all.
bool CardDelegate::units_above(int inner) const
{
    bool wanted = false;
    for (int row = 0; row < numbers_->rowCount(); ++row) {
        const auto card = numbers_->card(row);
        wanted = wanted || measured_px(card) + kGap_px + verdict_px(card) > inner;
        if (words().horizontalAdvance(card.name) + kGap_px + words().horizontalAdvance(card.unit) > inner) {
            return false;
        }
    }
    return wanted;
}

Parts CardDelegate::parts_of(const NumberCard& card, int width) const
{
    if (compact && one_line_px() <= width) {
        return in_one_line(card, width);
    }
    const int inner = width - 2 * kInside_px;
    const bool above = units_above(inner);
    Parts parts;
    parts.name = {kInside_px, kAir_px, inner, lines_px(card.name, inner)};
    int top = parts.name.bottom() + 1;
    put_measured(parts, card, kInside_px, top);
    if (above) {
        const int behind_px = words().horizontalAdvance(card.name) + kGap_px;
        parts.unit = parts.name.adjusted(behind_px, 0, 0, 0);
    }
    const int value_px = above ? parts.measured.width() : measured_px(card);
    const bool below = value_px + kGap_px + verdict_px(card) > inner;
    const int verdict_line_px = below ? words().height() + kAir_px : line_px();
    top += below ? line_px() : 0;
    parts.verdict = {width - kInside_px - verdict_px(card), top, verdict_px(card), verdict_line_px};
    top += verdict_line_px;
    if (!compact && !card.beside.isEmpty()) {
        parts.beside = {kInside_px, top, inner, lines_px(card.beside, inner)};
        top = parts.beside.bottom() + 1;
    }
    parts.height = top + kAir_px;
    return parts;
}

/// All cards are as high as the highest.
int CardDelegate::height_of_all(int width) const
{
    int height = 0;
    for (int row = 0; row < numbers_->rowCount(); ++row) {
        height = std::max(height, parts_of(numbers_->card(row), width).height);
    }
    return height;
}

void CardDelegate::paint_verdict(QPainter& painter, const QRect& where, const NumberCard& card) const
{
    if (card.verdict.isEmpty()) {
        return;
    }
    const auto fill = fill_of(card.tone);
    const int air = std::max(0, (where.height() - words().height() - kAir_px) / 2);
    const auto box = QRectF(where.adjusted(0, air, 0, -air));
    painter.setPen(fill.isValid() ? QPen(Qt::NoPen) : QPen(colours().color(QPalette::Dark)));
    painter.setBrush(fill.isValid() ? QBrush(fill) : QBrush(Qt::NoBrush));
    painter.drawRoundedRect(box, kCorner_px, kCorner_px);
    painter.setPen(ink_on(card.tone, colours()));
    painter.drawText(box, Qt::AlignCenter, card.verdict);
}

void CardDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const
{
    const auto card = numbers_->card(index.row());
    const auto palette = colours();
    const auto box = QRectF(option.rect.topLeft(), cell).adjusted(0.5, 0.5, -kAir_px - 0.5, -kAir_px - 0.5);
    const auto parts = parts_of(card, cell.width() - kAir_px);
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setPen(palette.color(QPalette::Mid));
    painter->setBrush(palette.color(QPalette::Base));
    painter->drawRoundedRect(box, kCorner_px, kCorner_px);
    painter->translate(option.rect.topLeft());
    painter->setFont(view_->font());
    painter->setPen(palette.color(QPalette::PlaceholderText));
    painter->drawText(parts.name, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextWordWrap, card.name);
    painter->drawText(parts.beside, Qt::AlignLeft | Qt::TextWordWrap, card.beside);
    painter->drawText(parts.unit, Qt::AlignLeft | Qt::AlignVCenter, card.unit);
    paint_verdict(*painter, parts.verdict, card);
    painter->setFont(larger(view_->font()));
    painter->setPen(palette.color(QPalette::Text));
    painter->drawText(parts.measured, Qt::AlignLeft | Qt::AlignVCenter, card.measured);
    painter->restore();
}

CardDelegate& drawn_by(const QListView& view) { return static_cast<CardDelegate&>(*view.itemDelegate()); }

} // namespace

NumberCards::NumberCards(const char* name, const QString& spoken, session::JudgementModel* model) : numbers_(model)
{
    named(this, name, spoken);
    setProperty("cards", true);
    setModel(model);
    setItemDelegate(new CardDelegate(*model, this));
    setFlow(QListView::LeftToRight);
    setWrapping(true);
    setResizeMode(QListView::Adjust);
    setUniformItemSizes(true);
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setSelectionMode(QAbstractItemView::NoSelection);
    setTabKeyNavigation(false);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    more_ = text_label("moreNumbers", tr("numbers that are out of sight"));
    more_->setParent(this);
    more_->setAlignment(Qt::AlignCenter);
    more_->hide();
    connect(verticalScrollBar(), &QScrollBar::valueChanged, this, &NumberCards::say_how_many_more);
    connect(model, &QAbstractItemModel::modelReset, this, &NumberCards::arrange);
    connect(model, &QAbstractItemModel::dataChanged, this, &NumberCards::arrange);
    arrange();
}

int NumberCards::wanted_px() const
{
    const int bar = verticalScrollBar()->sizeHint().width();
    const int two = 2 * (kLettersOfCard * fontMetrics().averageCharWidth() + kAir_px);
    constexpr int slack_px = 8; // for the outlines
    return std::min(two, drawn_by(*this).one_line_px() + kAir_px) + bar + slack_px;
}

void NumberCards::resizeEvent(QResizeEvent* event)
{
    QListView::resizeEvent(event);
    arrange();
}

void NumberCards::keyPressEvent(QKeyEvent* event)
{
    if (event->matches(QKeySequence::Copy)) {
        copy_numbers(*numbers_);
        return;
    }
    QListView::keyPressEvent(event);
}

QSize NumberCards::sizeHint() const { return {wanted_px(), maximumHeight()}; }

/// Where there is no height for all of each card: without what stands beside, then with a scroll bar.
void NumberCards::arrange()
{
    lay_out(false, false);
    const int all = content_px() + 2 * frameWidth();
    setMaximumHeight(all);
    if (all > height()) {
        lay_out(true, false);
    }
    const bool scrolls = content_px() + 2 * frameWidth() > height();
    if (scrolls) {
        lay_out(true, true);
    }
    setVerticalScrollBarPolicy(scrolls ? Qt::ScrollBarAlwaysOn : Qt::ScrollBarAlwaysOff);
    setViewportMargins(0, 0, 0, scrolls ? fontMetrics().height() : 0);
    scheduleDelayedItemsLayout();
    viewport()->update();
    say_how_many_more();
}

void NumberCards::say_how_many_more()
{
    const int card_px = drawn_by(*this).cell.height();
    const int lines_seen = (viewport()->height() + verticalScrollBar()->value()) / std::max(1, card_px);
    const int more = numbers_->rowCount() - lines_seen * abreast_;
    const bool scrolls = verticalScrollBarPolicy() == Qt::ScrollBarAlwaysOn;
    more_->setText(tr("\u25BE %1 more below").arg(more));
    more_->setGeometry(0, height() - fontMetrics().height(), width(), fontMetrics().height());
    more_->setVisible(scrolls && more > 0);
}

void NumberCards::lay_out(bool compact, bool scrolls)
{
    auto& delegate = drawn_by(*this);
    const int room = width() - 2 * frameWidth() - (scrolls ? verticalScrollBar()->sizeHint().width() : 0);
    const int least = kLettersOfCard * fontMetrics().averageCharWidth() + kAir_px;
    constexpr int slack_px = 2; // a list begins a new line where a card ends at its very edge
    abreast_ = room >= 2 * least ? 2 : 1;
    delegate.compact = compact;
    delegate.cell.setWidth(std::max(1, room / abreast_ - slack_px));
    delegate.cell.setHeight(delegate.height_of_all(delegate.cell.width() - kAir_px) + kAir_px);
}

int NumberCards::content_px() const
{
    const int lines = (numbers_->rowCount() + abreast_ - 1) / abreast_;
    return lines * drawn_by(*this).cell.height();
}

} // namespace zeroline::window
