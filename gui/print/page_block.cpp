#include "gui/print/page_block.hpp"

#include <algorithm>
#include <memory>

namespace zeroline::print {

namespace {

const Style kLabel{.size_pt = 6.6, .colour = QColor(0x50, 0x50, 0x50)};
const Style kValue{.size_pt = 7.2};
const Style kHeading{.size_pt = 8.2, .bold = true};
constexpr double kRowGap = 0.35;

double fact_height(const std::pair<QString, QString>& fact, double label_mm, double value_mm)
{
    return kRowGap +
           std::max(text_height_mm(fact.first, label_mm, kLabel), text_height_mm(fact.second, value_mm, kValue));
}

/// One column of facts: those from `first` to before `last`.
struct FactColumn {
    std::size_t first, last;
};

std::vector<FactColumn> columns_of(std::size_t count, int columns)
{
    const auto wanted = static_cast<std::size_t>(columns);
    const std::size_t rows = (count + wanted - 1) / wanted;
    std::vector<FactColumn> result;
    for (std::size_t first = 0; first < count; first += rows) {
        result.push_back({first, std::min(count, first + rows)});
    }
    return result;
}

constexpr double kFactGutter = 3.0;

double column_width(double width, int columns) { return (width - kFactGutter * (columns - 1)) / columns; }

void draw_facts(const Facts& pairs, int columns, double label_mm, PagePainter& painter, const QRectF& box)
{
    const double width = column_width(box.width(), columns);
    double x = box.left();
    for (const auto& column : columns_of(pairs.size(), columns)) {
        double y = box.top();
        for (std::size_t i = column.first; i < column.last; ++i) {
            // The smaller label stands on the line of its value.
            const double drop = (line_height_mm(kValue) - line_height_mm(kLabel)) * 0.6;
            painter.text({x, y + drop, label_mm, 0}, pairs[i].first, kLabel);
            painter.text({x + label_mm, y, width - label_mm, 0}, pairs[i].second, kValue);
            y += fact_height(pairs[i], label_mm, width - label_mm);
        }
        x += width + kFactGutter;
    }
}

double facts_height(const Facts& pairs, int columns, double label_mm, double width)
{
    const double value_mm = column_width(width, columns) - label_mm;
    double tallest = 0.0;
    for (const auto& column : columns_of(pairs.size(), columns)) {
        double height = 0.0;
        for (std::size_t i = column.first; i < column.last; ++i) {
            height += fact_height(pairs[i], label_mm, value_mm);
        }
        tallest = std::max(tallest, height);
    }
    return tallest;
}

} // namespace

PageBlock paragraph(const QString& text, const Style& style, double gap_before)
{
    return {[=](double width) { return text_height_mm(text, width, style); },
            [=](PagePainter& painter, const QRectF& box) { painter.text(box, text, style); }, gap_before};
}

PageBlock heading(const QString& text)
{
    const double height = line_height_mm(kHeading) + 0.9;
    PageBlock block = drawing(
        height,
        [text](PagePainter& painter, const QRectF& box) {
            painter.text(box, text, kHeading);
            const double y = box.bottom() - 0.6;
            painter.line({box.left(), y}, {box.right(), y}, {0.12, QColor(0x80, 0x80, 0x80)});
        },
        2.0);
    block.keeps_next = true;
    return block;
}

PageBlock facts(const Facts& pairs, int columns, double label_mm, double gap_before)
{
    return {[=](double width) { return facts_height(pairs, columns, label_mm, width); },
            [=](PagePainter& painter, const QRectF& box) { draw_facts(pairs, columns, label_mm, painter, box); },
            gap_before};
}

PageBlock beside(std::vector<std::pair<double, PageBlocks>> columns, double gutter_mm, double gap_before)
{
    double shares = 0.0;
    for (const auto& column : columns) {
        shares += column.first;
    }
    const auto all = std::make_shared<const std::vector<std::pair<double, PageBlocks>>>(std::move(columns));
    const auto width_of = [=](double share, double width) {
        return (width - gutter_mm * static_cast<double>(all->size() - 1)) * share / shares;
    };
    return {[=](double width) {
                double tallest = 0.0;
                for (const auto& [share, blocks] : *all) {
                    tallest = std::max(tallest, height_of(blocks, width_of(share, width)));
                }
                return tallest;
            },
            [=](PagePainter& painter, const QRectF& box) {
                double x = box.left();
                for (const auto& [share, blocks] : *all) {
                    const double width = width_of(share, box.width());
                    draw_all(blocks, painter, {x, box.top(), width, box.height()});
                    x += width + gutter_mm;
                }
            },
            gap_before};
}

PageBlock framed(PageBlocks inside, const Framing& framing, double gap_before)
{
    const auto blocks = std::make_shared<const PageBlocks>(std::move(inside));
    const double padding = framing.padding_mm;
    return {[=](double width) { return height_of(*blocks, width - 2 * padding) + 2 * padding; },
            [=](PagePainter& painter, const QRectF& box) {
                if (framing.ground.alpha() > 0) {
                    painter.fill(box, framing.ground);
                }
                if (framing.edge.width_mm > 0) {
                    painter.frame(box, framing.edge);
                }
                draw_all(*blocks, painter, box.adjusted(padding, padding, -padding, -padding));
            },
            gap_before};
}

PageBlock drawing(double height_mm, std::function<void(PagePainter&, const QRectF&)> draw, double gap_before)
{
    return {[height_mm](double) { return height_mm; }, std::move(draw), gap_before};
}

double height_of(const PageBlocks& blocks, double width)
{
    double height = 0.0;
    for (std::size_t i = 0; i < blocks.size(); ++i) {
        height += (i > 0 ? blocks[i].gap_before : 0.0) + blocks[i].height(width);
    }
    return height;
}

void draw_all(const PageBlocks& blocks, PagePainter& painter, const QRectF& box)
{
    double y = box.top();
    for (std::size_t i = 0; i < blocks.size(); ++i) {
        y += i > 0 ? blocks[i].gap_before : 0.0;
        const double height = blocks[i].height(box.width());
        blocks[i].draw(painter, {box.left(), y, box.width(), height});
        y += height;
    }
}

} // namespace zeroline::print
