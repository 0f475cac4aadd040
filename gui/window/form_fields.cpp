#include "gui/window/form_fields.hpp"

#include "gui/window/page_parts.hpp"
#include "gui/window/settings_fields.hpp"

#include <QCheckBox>
#include <QComboBox>
#include <QCoreApplication>
#include <QDoubleSpinBox>
#include <QEvent>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QScrollArea>
#include <QScrollBar>
#include <QSpinBox>

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

namespace zeroline::window {

QLineEdit* text_field(const char* name, const QString& spoken)
{
    auto* made = named(new QLineEdit, name, spoken);
    made->setMinimumHeight(kTarget_px);
    made->setProperty("field", true);
    return made;
}

QComboBox* choice_field(const char* name, const QString& spoken)
{
    auto* made = named(new QComboBox, name, spoken);
    made->setMinimumHeight(kTarget_px);
    made->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    made->setMinimumContentsLength(12);
    return made;
}

QCheckBox* check_field(const char* name, const QString& text)
{
    auto* made = named(new QCheckBox(text), name, text);
    made->setMinimumHeight(kTarget_px);
    return made;
}

QSpinBox* count_field(const char* name, const QString& spoken, int low, int high)
{
    auto* made = named(new QSpinBox, name, spoken);
    made->setMinimumHeight(kTarget_px);
    made->setRange(low, high);
    made->setAlignment(Qt::AlignRight);
    return made;
}

QDoubleSpinBox* optional_field(const char* name, const QString& spoken, double low, double high, int decimals,
                               const QString& unit)
{
    const double step = std::pow(10.0, -decimals);
    auto* made = number_box(name, spoken, low - step, high, decimals, unit);
    made->setSpecialValueText(QStringLiteral("\u2013"));
    made->setValue(made->minimum());
    return made;
}

std::optional<double> value_of(const QDoubleSpinBox* field)
{
    const bool none = !field->specialValueText().isEmpty() && field->value() <= field->minimum();
    return none ? std::nullopt : std::optional(field->value());
}

void put(QDoubleSpinBox* field, const std::optional<double>& value)
{
    field->setValue(value ? *value : field->minimum());
}

std::string value_of(const QLineEdit* field) { return field->text().trimmed().toStdString(); }

void put(QLineEdit* field, const std::string& text) { field->setText(QString::fromStdString(text)); }

QFormLayout* form_in(QWidget* widget)
{
    auto* form = new QFormLayout(widget);
    form->setContentsMargins({});
    // A label stands beside the first line of its field, however far the field goes on below.
    form->setLabelAlignment(Qt::AlignLeft | Qt::AlignTop);
    form->setRowWrapPolicy(QFormLayout::WrapLongRows);
    form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    return form;
}

namespace {

/// A form hands out heights that it asked for before it knew the width: a field whose parts go on below says it again.
class HeightForItsWidth : public QObject {
public:
    using QObject::QObject;

protected:
    bool eventFilter(QObject* watched, QEvent* event) override
    {
        if (event->type() == QEvent::Resize || event->type() == QEvent::LayoutRequest) {
            auto* field = static_cast<QWidget*>(watched);
            field->setMinimumHeight(std::max(0, field->heightForWidth(field->width())));
        }
        return false;
    }
};

void keep_height(const QLayoutItem* field)
{
    if (field != nullptr && field->widget() != nullptr && field->widget()->hasHeightForWidth()) {
        field->widget()->installEventFilter(new HeightForItsWidth(field->widget()));
    }
}

} // namespace

void align_labels(QWidget* page)
{
    std::vector<QWidget*> labels;
    int widest = 0;
    for (auto* form : page->findChildren<QFormLayout*>()) {
        for (int row = 0; row < form->rowCount(); ++row) {
            keep_height(form->itemAt(row, QFormLayout::FieldRole));
            keep_height(form->itemAt(row, QFormLayout::SpanningRole));
            const auto* item = form->itemAt(row, QFormLayout::LabelRole);
            if (item != nullptr && qobject_cast<QLabel*>(item->widget()) != nullptr) {
                labels.push_back(item->widget());
                item->widget()->setFixedHeight(std::max(kTarget_px, item->widget()->sizeHint().height()));
                widest = std::max(widest, item->widget()->sizeHint().width());
            }
        }
    }
    for (auto* label : labels) {
        label->setMinimumSize(widest, kTarget_px);
    }
}

namespace {

/// Says below itself that it goes on, as long as it does. The room for that stays where it is longer than its window:
/// nothing moves under the hand.
class LongPage : public QScrollArea {
    Q_DECLARE_TR_FUNCTIONS(LongPage)
public:
    LongPage() : more_(text_label("goesOn", tr("this page goes on below"), tr("\u25BE goes on below")))
    {
        more_->setParent(this);
        more_->setAlignment(Qt::AlignCenter);
        more_->hide();
        connect(verticalScrollBar(), &QScrollBar::valueChanged, this, [this] { say_it(); });
        connect(verticalScrollBar(), &QScrollBar::rangeChanged, this, [this] { say_it(); });
    }

protected:
    void resizeEvent(QResizeEvent* event) override
    {
        QScrollArea::resizeEvent(event);
        say_it();
    }

private:
    void say_it()
    {
        if (std::exchange(saying_, true)) {
            return; // giving room changes the range, which would be said again
        }
        const auto* bar = verticalScrollBar();
        const int room_px = bar->maximum() > 0 ? more_->sizeHint().height() : 0;
        setViewportMargins(0, 0, 0, room_px);
        saying_ = false;
        more_->setGeometry(0, height() - room_px, width(), room_px);
        more_->setVisible(bar->value() < bar->maximum());
    }

    QLabel* more_;
    bool saying_ = false;
};

} // namespace

QWidget* scrolled(QWidget* inner, const char* name, const QString& spoken)
{
    align_labels(inner);
    auto* scroll = named(static_cast<QScrollArea*>(new LongPage), name, spoken);
    scroll->setWidget(inner);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFocusPolicy(Qt::NoFocus);
    return scroll;
}

} // namespace zeroline::window
