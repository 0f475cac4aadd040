#include "gui/window/flow_layout.hpp"

#include <QSpacerItem>
#include <QWidget>

#include <algorithm>
#include <numeric>

namespace zeroline::window {

namespace {

/// Makes those parts equally wide that are not wider already, up to what each can take.
void level(std::vector<int>& widths, std::vector<std::size_t> growing, int room)
{
    for (const auto at : growing) {
        room += widths[at];
    }
    const auto wider = [&](std::size_t at) { return widths[at] > room / static_cast<int>(growing.size()); };
    for (auto wide = std::find_if(growing.begin(), growing.end(), wider); wide != growing.end();
         wide = std::find_if(growing.begin(), growing.end(), wider)) {
        room -= widths[*wide];
        growing.erase(wide);
        if (growing.empty()) {
            return;
        }
    }
    for (const auto at : growing) {
        widths[at] = room / static_cast<int>(growing.size());
    }
}

} // namespace

FlowLayout::FlowLayout(QWidget* parent) : QLayout(parent) {}

FlowLayout::~FlowLayout() = default;

void FlowLayout::let_grow(int index, int share) { parts_.at(static_cast<std::size_t>(index)).share = share; }

void FlowLayout::put_gap(int index)
{
    Part gap;
    gap.item = std::make_unique<QSpacerItem>(0, 0);
    gap.share = 1;
    gap.gap = true;
    parts_.insert(parts_.begin() + std::min(index, count()), std::move(gap));
    invalidate();
}

void FlowLayout::addItem(QLayoutItem* item) { parts_.push_back({std::unique_ptr<QLayoutItem>(item), 0, false}); }

int FlowLayout::count() const { return static_cast<int>(parts_.size()); }

QLayoutItem* FlowLayout::itemAt(int index) const
{
    return index >= 0 && index < count() ? parts_[static_cast<std::size_t>(index)].item.get() : nullptr;
}

QLayoutItem* FlowLayout::takeAt(int index)
{
    if (index < 0 || index >= count()) {
        return nullptr;
    }
    auto* item = parts_[static_cast<std::size_t>(index)].item.release();
    parts_.erase(parts_.begin() + index);
    return item;
}

Qt::Orientations FlowLayout::expandingDirections() const { return Qt::Horizontal; }

int FlowLayout::spaces_in(const Line& line) const
{
    const auto seen = std::count_if(line.parts.begin(), line.parts.end(), [](const Part* part) { return !part->gap; });
    return std::max(0, static_cast<int>(seen) - 1) * spacing();
}

/// Parts in lines no wider than that; a part that is wider alone is squeezed as far as it can be.
std::vector<FlowLayout::Line> FlowLayout::lines(int width) const
{
    std::vector<Line> all;
    int left = -1;
    for (const auto& part : parts_) {
        if (!part.seen()) {
            continue;
        }
        const int wanted = part.gap ? 0 : std::max(part.item->minimumSize().width(), std::min(part.width(), width));
        const int spaced = part.gap || all.empty() || all.back().parts.empty() ? wanted : wanted + spacing();
        if (all.empty() || spaced > left) {
            all.emplace_back();
            left = width - wanted;
        } else {
            left -= spaced;
        }
        all.back().parts.push_back(&part);
        all.back().widths.push_back(wanted);
    }
    for (auto& line : all) {
        share_out(line, width);
        for (std::size_t i = 0; i < line.parts.size(); ++i) {
            const auto& item = *line.parts[i]->item;
            const int height =
                item.hasHeightForWidth() ? item.heightForWidth(line.widths[i]) : item.sizeHint().height();
            line.height = std::max(line.height, height);
        }
    }
    return all;
}

void FlowLayout::share_out(Line& line, int width) const
{
    const int room = width - spaces_in(line) - std::accumulate(line.widths.begin(), line.widths.end(), 0);
    const int shares = std::accumulate(line.parts.begin(), line.parts.end(), 0,
                                       [](int sum, const Part* part) { return sum + part->share; });
    // Where one part of the row takes what is left, the others keep their width, on a line of their own too.
    const bool settled =
        std::any_of(parts_.begin(), parts_.end(), [](const Part& part) { return part.gap || part.share > 0; });
    if (room <= 0 || (shares == 0 && settled)) {
        return;
    }
    std::vector<std::size_t> growing;
    std::vector<std::size_t> eager;
    for (std::size_t i = 0; i < line.parts.size(); ++i) {
        const auto& part = *line.parts[i];
        if (shares > 0) {
            line.widths[i] += room * part.share / shares;
        } else if (part.item->maximumSize().width() > line.widths[i]) {
            growing.push_back(i);
            if ((part.item->expandingDirections() & Qt::Horizontal) != 0) {
                eager.push_back(i);
            }
        }
    }
    if (!growing.empty()) {
        level(line.widths, eager.empty() ? growing : eager, room);
    }
}

int FlowLayout::heightForWidth(int width) const
{
    const auto margins = contentsMargins();
    const auto all = lines(width - margins.left() - margins.right());
    const int heights =
        std::accumulate(all.begin(), all.end(), 0, [](int sum, const Line& line) { return sum + line.height; });
    return heights + std::max(0, static_cast<int>(all.size()) - 1) * spacing() + margins.top() + margins.bottom();
}

QSize FlowLayout::minimumSize() const
{
    QSize least(0, 0);
    for (const auto& part : parts_) {
        if (part.seen() && !part.gap) {
            least = least.expandedTo(part.item->minimumSize());
        }
    }
    const auto margins = contentsMargins();
    return least + QSize(margins.left() + margins.right(), margins.top() + margins.bottom());
}

QSize FlowLayout::sizeHint() const
{
    Line one;
    QSize hint(0, 0);
    for (const auto& part : parts_) {
        if (part.seen() && !part.gap) {
            one.parts.push_back(&part);
            hint = QSize(hint.width() + part.width(), std::max(hint.height(), part.item->sizeHint().height()));
        }
    }
    const auto margins = contentsMargins();
    return hint + QSize(spaces_in(one) + margins.left() + margins.right(), margins.top() + margins.bottom());
}

void FlowLayout::setGeometry(const QRect& rect)
{
    QLayout::setGeometry(rect);
    const auto area = rect.marginsRemoved(contentsMargins());
    int top = area.top() + std::max(0, rect.height() - heightForWidth(rect.width())) / 2;
    for (const auto& line : lines(area.width())) {
        int left = area.left();
        for (std::size_t i = 0; i < line.parts.size(); ++i) {
            line.parts[i]->item->setGeometry({left, top, line.widths[i], line.height});
            left += line.widths[i] + (line.parts[i]->gap ? 0 : spacing());
        }
        top += line.height + spacing();
    }
}

} // namespace zeroline::window
