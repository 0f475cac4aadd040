#include "gui/window/numbers_table.hpp"

#include "gui/session/columns_that_give_way.hpp"
#include "gui/session/table_text.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/tone_delegate.hpp"

#include <QClipboard>
#include <QGuiApplication>
#include <QHeaderView>
#include <QKeyEvent>
#include <QMimeData>
#include <QScrollBar>

#include <algorithm>

namespace zeroline::window {

using Model = session::JudgementModel;

namespace {

constexpr int kCellAir_px = 16; ///< beside a text in its cell

bool wraps(Model::Column column)
{
    return column == Model::measurand || column == Model::verdict || column == Model::basis;
}

int sum_of_least(const auto& needs)
{
    int sum = 0;
    for (const auto& need : needs) {
        sum += need.shown ? need.least_px : 0;
    }
    return sum;
}

} // namespace

void copy_numbers(const session::JudgementModel& numbers)
{
    auto* copied = new QMimeData;
    copied->setText(session::as_text(numbers));
    copied->setData(QStringLiteral("text/csv"), session::as_csv(numbers).toUtf8());
    QGuiApplication::clipboard()->setMimeData(copied);
}

NumbersTable::NumbersTable(const char* name, const QString& spoken, Model* model) : numbers_(model)
{
    named(this, name, spoken);
    setModel(model);
    setItemDelegate(new ToneDelegate(Model::ToneRole, this));
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setSelectionMode(QAbstractItemView::NoSelection);
    setTabKeyNavigation(false);
    setWordWrap(true);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    verticalHeader()->hide();
    verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    horizontalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    horizontalHeader()->setMinimumSectionSize(1);
    horizontalHeader()->setStretchLastSection(true);
    horizontalHeader()->setHighlightSections(false);
    connect(model, &QAbstractItemModel::modelReset, this, &NumbersTable::share_out);
    connect(model, &QAbstractItemModel::dataChanged, this, &NumbersTable::share_out);
    share_out();
}

void NumbersTable::resizeEvent(QResizeEvent* event)
{
    QTableView::resizeEvent(event);
    share_out();
}

void NumbersTable::keyPressEvent(QKeyEvent* event)
{
    if (event->matches(QKeySequence::Copy)) {
        copy_numbers(*numbers_);
        return;
    }
    QTableView::keyPressEvent(event);
}

void NumbersTable::show_whole()
{
    whole_ = true;
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    // Rows take their height from their words once the columns have theirs.
    connect(verticalHeader(), &QHeaderView::sectionResized, this, &NumbersTable::take_height, Qt::QueuedConnection);
    take_height();
}

void NumbersTable::take_height()
{
    if (whole_) {
        setFixedHeight(horizontalHeader()->sizeHint().height() + verticalHeader()->length() + 2 * frameWidth() + 2);
    }
}

/// Without what a scroll bar takes, there or not: columns must not come and go with it.
int NumbersTable::room_px() const { return width() - 2 * frameWidth() - verticalScrollBar()->sizeHint().width(); }

NumbersTable::Need NumbersTable::need_of(int column) const
{
    const QFontMetrics words(font());
    Need need;
    for (int row = 0; row < numbers_->rowCount(); ++row) {
        const auto text = numbers_->index(row, column).data().toString();
        need.on_one_line_px = std::max(need.on_one_line_px, words.horizontalAdvance(text));
        for (const auto& word : text.split(u' ')) {
            need.least_px = std::max(need.least_px, words.horizontalAdvance(word));
        }
    }
    const auto head = numbers_->headerData(column, Qt::Horizontal, Qt::DisplayRole).toString();
    const int head_px = QFontMetrics(horizontalHeader()->font()).horizontalAdvance(head);
    need.on_one_line_px = std::max(need.on_one_line_px, head_px) + kCellAir_px;
    need.least_px =
        wraps(numbers_->column(column)) ? std::max(need.least_px, head_px) + kCellAir_px : need.on_one_line_px;
    return need;
}

std::vector<NumbersTable::Need> NumbersTable::needs() const
{
    std::vector<Need> needs;
    for (int column = 0; column < numbers_->columnCount(); ++column) {
        needs.push_back(need_of(column));
    }
    return needs;
}

void NumbersTable::leave_out(std::vector<Need>& needs) const
{
    const auto place_of = [&](Model::Column wanted) {
        int at = 0;
        while (at < numbers_->columnCount() && numbers_->column(at) != wanted) {
            ++at;
        }
        return at;
    };
    const bool with_worst = place_of(Model::worst) < numbers_->columnCount();
    for (const auto column : session::kGivesWay) {
        const int at = place_of(column);
        // What was measured stays in one form.
        const bool there = at < numbers_->columnCount() && (column != Model::mean || with_worst);
        if (there && sum_of_least(needs) > room_px()) {
            needs[static_cast<std::size_t>(at)].shown = false;
        }
    }
}

void NumbersTable::share_out()
{
    auto needs = this->needs();
    leave_out(needs);
    int rest_px = std::max(0, room_px() - sum_of_least(needs));
    for (const auto first : {Model::verdict, Model::measurand, Model::basis}) {
        for (std::size_t i = 0; i < needs.size(); ++i) {
            if (needs[i].shown && numbers_->column(static_cast<int>(i)) == first) {
                const int more_px = std::min(rest_px, needs[i].on_one_line_px - needs[i].least_px);
                needs[i].least_px += more_px;
                rest_px -= more_px;
            }
        }
    }
    for (std::size_t i = 0; i < needs.size(); ++i) {
        horizontalHeader()->setSectionHidden(static_cast<int>(i), !needs[i].shown);
        if (needs[i].shown) {
            horizontalHeader()->resizeSection(static_cast<int>(i), needs[i].least_px + (i == 0 ? rest_px / 2 : 0));
        }
    }
    tell(needs);
    if (whole_) {
        resizeRowsToContents(); // at once: else the height is that of the rows before
    }
    take_height();
}

void NumbersTable::tell(const std::vector<Need>& needs)
{
    QStringList left_out;
    for (std::size_t i = 0; i < needs.size(); ++i) {
        if (!needs[i].shown) {
            left_out << numbers_->headerData(static_cast<int>(i), Qt::Horizontal, Qt::DisplayRole).toString();
        }
    }
    if (left_out != left_out_) {
        left_out_ = left_out;
        const auto text =
            left_out.isEmpty() ? QString() : tr("no room for: %1").arg(left_out.join(QStringLiteral(", ")));
        setAccessibleDescription(text);
        horizontalHeader()->setToolTip(text);
        Q_EMIT leftOutChanged(left_out_);
    }
}

} // namespace zeroline::window
