#include "gui/print/piece.hpp"

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

void draw_facts(const Facts& pairs, int columns, double label_mm, Ink& ink, const QRectF& box)
{
    const double width = column_width(box.width(), columns);
    double x = box.left();
    for (const auto& column : columns_of(pairs.size(), columns)) {
        double y = box.top();
        for (std::size_t i = column.first; i < column.last; ++i) {
            // The smaller label stands on the line of its value.
            const double drop = (line_height_mm(kValue) - line_height_mm(kLabel)) * 0.6;
            ink.text({x, y + drop, label_mm, 0}, pairs[i].first, kLabel);
            ink.text({x + label_mm, y, width - label_mm, 0}, pairs[i].second, kValue);
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

Piece paragraph(const QString& text, const Style& style, double gap_before)
{
    return {[=](double width) { return text_height_mm(text, width, style); },
            [=](Ink& ink, const QRectF& box) { ink.text(box, text, style); }, gap_before};
}

Piece heading(const QString& text)
{
    const double height = line_height_mm(kHeading) + 0.9;
    Piece piece = drawing(
        height,
        [text](Ink& ink, const QRectF& box) {
            ink.text(box, text, kHeading);
            const double y = box.bottom() - 0.6;
            ink.line({box.left(), y}, {box.right(), y}, {0.12, QColor(0x80, 0x80, 0x80)});
        },
        2.0);
    piece.keeps_next = true;
    return piece;
}

Piece facts(const Facts& pairs, int columns, double label_mm, double gap_before)
{
    return {[=](double width) { return facts_height(pairs, columns, label_mm, width); },
            [=](Ink& ink, const QRectF& box) { draw_facts(pairs, columns, label_mm, ink, box); }, gap_before};
}

Piece beside(std::vector<std::pair<double, Pieces>> columns, double gutter_mm, double gap_before)
{
    double shares = 0.0;
    for (const auto& column : columns) {
        shares += column.first;
    }
    const auto all = std::make_shared<const std::vector<std::pair<double, Pieces>>>(std::move(columns));
    const auto width_of = [=](double share, double width) {
        return (width - gutter_mm * static_cast<double>(all->size() - 1)) * share / shares;
    };
    return {[=](double width) {
                double tallest = 0.0;
                for (const auto& [share, pieces] : *all) {
                    tallest = std::max(tallest, height_of(pieces, width_of(share, width)));
                }
                return tallest;
            },
            [=](Ink& ink, const QRectF& box) {
                double x = box.left();
                for (const auto& [share, pieces] : *all) {
                    const double width = width_of(share, box.width());
                    draw_all(pieces, ink, {x, box.top(), width, box.height()});
                    x += width + gutter_mm;
                }
            },
            gap_before};
}

Piece framed(Pieces inside, const Framing& framing, double gap_before)
{
    const auto pieces = std::make_shared<const Pieces>(std::move(inside));
    const double padding = framing.padding_mm;
    return {[=](double width) { return height_of(*pieces, width - 2 * padding) + 2 * padding; },
            [=](Ink& ink, const QRectF& box) {
                if (framing.ground.alpha() > 0) {
                    ink.fill(box, framing.ground);
                }
                if (framing.edge.width_mm > 0) {
                    ink.frame(box, framing.edge);
                }
                draw_all(*pieces, ink, box.adjusted(padding, padding, -padding, -padding));
            },
            gap_before};
}

Piece drawing(double height_mm, std::function<void(Ink&, const QRectF&)> draw, double gap_before)
{
    return {[height_mm](double) { return height_mm; }, std::move(draw), gap_before};
}

double height_of(const Pieces& pieces, double width)
{
    double height = 0.0;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        height += (i > 0 ? pieces[i].gap_before : 0.0) + pieces[i].height(width);
    }
    return height;
}

void draw_all(const Pieces& pieces, Ink& ink, const QRectF& box)
{
    double y = box.top();
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        y += i > 0 ? pieces[i].gap_before : 0.0;
        const double height = pieces[i].height(box.width());
        pieces[i].draw(ink, {box.left(), y, box.width(), height});
        y += height;
    }
}

} // namespace zeroline::print
