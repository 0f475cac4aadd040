#include "gui/window/theme.hpp"

#include "gui/charts/picture.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/tone_colours.hpp"

#include <QApplication>
#include <QPainter>
#include <QProxyStyle>
#include <QStyleFactory>
#include <QStyleOptionComplex>

#include <utility>

namespace zeroline::window {

namespace {

/// Shapes. Between @ and @ stands the name of a colour. A thicker outline takes its room from the air inside. A field
/// names no colour of writing: Qt 6.4 would then draw its hint at half of it, which is too faint.
const QString kShapes = QStringLiteral(R"(
QPushButton { background: @card@; color: @ink@; border: 1px solid @line@; border-radius: 6px; padding: 2px 10px; }
QPushButton:hover { background: @under@; }
QPushButton:pressed, QPushButton:checked { background: @edge@; }
QPushButton:focus { border: 2px solid @accent@; padding: 1px 9px; }
QPushButton:disabled { color: @quiet@; background: @ground@; border: 1px dashed @line@; }
QPushButton[primary="true"] { background: @accent@; color: @on_accent@; border-color: @accent@; }
QPushButton[primary="true"]:focus { border-color: @ink@; text-decoration: underline; }
QPushButton[primary="true"]:disabled { background: @ground@; color: @quiet@; border: 1px dashed @line@; }
QPushButton[quiet="true"] { background: transparent; border-color: transparent; }
QPushButton[quiet="true"]:hover { background: @under@; }
QPushButton[quiet="true"]:checked { background: @edge@; }
QPushButton[quiet="true"]:focus { border-color: @accent@; }
QLineEdit[field="true"] { background: @card@; border: 1px solid @line@; border-radius: 6px; padding: 0 8px; }
QLineEdit[field="true"]:focus { border: 2px solid @accent@; padding: 0 7px; }
QLineEdit[field="true"]:disabled { background: @ground@; }
QFrame[card="true"] { background: @card@; border: 1px solid @edge@; border-radius: 6px; }
QTableView, QListView { background: @card@; border: none; gridline-color: @edge@; }
QListView[cards="true"] { background: transparent; }
QTableView:focus, QListView:focus { border: 2px solid @accent@; }
QHeaderView, QHeaderView::section { background: @card@; color: @quiet@; }
QHeaderView::section { border: none; border-bottom: 1px solid @line@; padding: 4px 6px; }
QProgressBar { background: @card@; border: 1px solid @line@; border-radius: 6px; }
QProgressBar::chunk { background: @accent@; border-radius: 5px; }
)");

QString style_sheet(const Colours& colours)
{
    auto sheet = kShapes;
    for (const auto& [name, colour] : {std::pair{"@ground@", colours.ground},
                                       {"@card@", colours.card},
                                       {"@ink@", colours.ink},
                                       {"@quiet@", colours.quiet},
                                       {"@line@", colours.line},
                                       {"@edge@", colours.edge},
                                       {"@under@", colours.under},
                                       {"@accent@", colours.accent},
                                       {"@on_accent@", colours.on_accent}}) {
        sheet.replace(QLatin1String(name), colour.name());
    }
    return sheet;
}

/// Fusion outlines what holds a value by darkening the ground: on black nobody sees it.
class OutlinedFields : public QProxyStyle {
public:
    using QProxyStyle::QProxyStyle;
    void drawComplexControl(ComplexControl control, const QStyleOptionComplex* option, QPainter* painter,
                            const QWidget* widget) const override
    {
        QProxyStyle::drawComplexControl(control, option, painter, widget);
        if (control != CC_ComboBox && control != CC_SpinBox) {
            return;
        }
        const bool focus = (option->state & State_HasFocus) != 0;
        constexpr double half = 0.5, corner = 5.0;
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        painter->setBrush(Qt::NoBrush);
        painter->setPen(QPen(option->palette.color(focus ? QPalette::Highlight : QPalette::Dark), focus ? 2.0 : 1.0));
        painter->drawRoundedRect(QRectF(option->rect).adjusted(half, half, -half, -half), corner, corner);
        painter->restore();
    }
};

} // namespace

Colours colours_of(Scheme scheme)
{
    switch (scheme) {
    case Scheme::light:
        return {0xFFEEF1F4, 0xFFFFFFFF, 0xFF1A1D21,    0xFF4A525B, 0xFF7C8792,
                0xFFD9DEE4, 0xFFE3F0F8, charts::kBlue, 0xFFFFFFFF};
    case Scheme::dark:
        return {0xFF0F1215, 0xFF1A1F24, 0xFFF1F3F5,       0xFFB4BCC4, 0xFF7D8894,
                0xFF30373E, 0xFF233542, charts::kSkyBlue, 0xFF0F1215};
    case Scheme::high_contrast:
        break;
    }
    // A hint as white as what is typed would look filled in.
    return {0xFF000000, 0xFF000000, 0xFFFFFFFF,       0xFFB2B2B2, 0xFFFFFFFF,
            0xFF666666, 0xFF1A3A4D, charts::kSkyBlue, 0xFF000000};
}

QPalette palette_of(const Colours& colours)
{
    QPalette palette(colours.card, colours.ground);
    const auto set = [&](QPalette::ColorRole role, const QColor& colour) { palette.setColor(role, colour); };
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText, QPalette::ToolTipText}) {
        set(role, colours.ink);
        palette.setColor(QPalette::Disabled, role, colours.quiet);
    }
    set(QPalette::Window, colours.ground);
    for (const auto role : {QPalette::Base, QPalette::AlternateBase, QPalette::ToolTipBase}) {
        set(role, colours.card);
    }
    set(QPalette::PlaceholderText, colours.quiet);
    set(QPalette::Highlight, colours.accent);
    set(QPalette::HighlightedText, colours.on_accent);
    set(QPalette::Link, colours.accent);
    set(QPalette::Mid, colours.edge);
    set(QPalette::Dark, colours.line);
    return palette;
}

Scheme scheme_for(const QPalette& desktop)
{
    const auto ground = desktop.color(QPalette::Window);
    constexpr double stark = 20.5; // black on white is 21
    const bool flat = ground == desktop.color(QPalette::Base) && ground == desktop.color(QPalette::Button);
    if (flat && contrast(ground, desktop.color(QPalette::WindowText)) > stark && is_dark(desktop)) {
        return Scheme::high_contrast;
    }
    return is_dark(desktop) ? Scheme::dark : Scheme::light;
}

Scheme scheme_of(const QString& word, const QPalette& desktop)
{
    return word == QLatin1String("light")      ? Scheme::light
           : word == QLatin1String("dark")     ? Scheme::dark
           : word == QLatin1String("contrast") ? Scheme::high_contrast
                                               : scheme_for(desktop);
}

void dress(QApplication& application, Scheme scheme)
{
    const auto colours = colours_of(scheme);
    QApplication::setStyle(new OutlinedFields(QStyleFactory::create(QStringLiteral("Fusion"))));
    QApplication::setPalette(palette_of(colours));
    application.setStyleSheet(style_sheet(colours));
}

} // namespace zeroline::window
