#include "gui/window/page_parts.hpp"

#include "gui/window/flow_layout.hpp"

#include <QFont>
#include <QFrame>
#include <QLabel>
#include <QStyle>
#include <QVBoxLayout>

#include <algorithm>

namespace zeroline::window {

namespace {

/// Never squeezed: its words would be cut.
class WholeButton : public QPushButton {
public:
    using QPushButton::QPushButton;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }
};

} // namespace

QPushButton* button(const char* name, const QString& text)
{
    auto* made = named(static_cast<QPushButton*>(new WholeButton(text)), name, QString(text).remove(u'&'));
    made->setMinimumHeight(kTarget_px);
    made->setAutoDefault(false);
    return made;
}

QPushButton* primary(QPushButton* button)
{
    make_primary(button, true);
    return button;
}

void make_primary(QPushButton* button, bool is)
{
    button->setProperty("primary", is);
    auto font = button->font();
    font.setBold(is);
    button->setFont(font);
    button->style()->unpolish(button);
    button->style()->polish(button);
}

QPushButton* quiet(QPushButton* button)
{
    button->setProperty("quiet", true);
    return button;
}

QLabel* text_label(const char* name, const QString& spoken, const QString& text)
{
    auto* made = named(new QLabel(text), name, spoken);
    made->setWordWrap(true);
    return made;
}

QLabel* large_label(const char* name, const QString& spoken, double points, bool bold)
{
    auto* made = text_label(name, spoken);
    auto font = made->font();
    // Larger than what stands around it also where the system's font is large already; more would take its room.
    constexpr double stands_out = 1.15;
    font.setPointSizeF(std::max(points, stands_out * font.pointSizeF()));
    font.setBold(bold);
    made->setFont(font);
    return made;
}

QLabel* heading(const QString& text)
{
    auto* made = new QLabel(text);
    made->setWordWrap(true);
    auto font = made->font();
    font.setBold(true);
    font.setPointSizeF(font.pointSizeF() * 1.15);
    made->setFont(font);
    made->setAccessibleName(text);
    return made;
}

namespace {

template <typename Layout> QWidget* boxed(std::initializer_list<QWidget*> widgets, QWidget* box = new QWidget)
{
    auto* layout = new Layout(box);
    layout->setContentsMargins({});
    for (auto* widget : widgets) {
        layout->addWidget(widget);
    }
    return box;
}

} // namespace

QWidget* row_of(std::initializer_list<QWidget*> widgets) { return boxed<FlowLayout>(widgets); }

void let_grow(QWidget* row, int index, int share) { static_cast<FlowLayout*>(row->layout())->let_grow(index, share); }

void put_gap(QWidget* row, int index) { static_cast<FlowLayout*>(row->layout())->put_gap(index); }

void stand_abreast(const QWidget& page, int letters, std::initializer_list<QBoxLayout*> layouts)
{
    const bool wide = page.width() > letters * page.fontMetrics().averageCharWidth();
    for (auto* layout : layouts) {
        layout->setDirection(wide ? QBoxLayout::LeftToRight : QBoxLayout::TopToBottom);
    }
}

QWidget* column_of(std::initializer_list<QWidget*> widgets) { return boxed<QVBoxLayout>(widgets); }

QWidget* card_of(std::initializer_list<QWidget*> widgets)
{
    auto* card = boxed<QVBoxLayout>(widgets, new QFrame);
    card->setProperty("card", true);
    card->layout()->setContentsMargins(kCard_px, kGap_px, kCard_px, kGap_px);
    card->layout()->setSpacing(kGap_px);
    return card;
}

} // namespace zeroline::window
