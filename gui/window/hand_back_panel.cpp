#include "gui/window/hand_back_panel.hpp"

#include "gui/window/page_parts.hpp"
#include "gui/window/settings_fields.hpp"
#include "gui/window/tone_colours.hpp"

#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QVBoxLayout>

namespace zeroline::window {

namespace {

constexpr double kListPoints = 13.0;

} // namespace

HandBackPanel::HandBackPanel(session::BenchSession& session, std::function<void()> moved, QWidget* parent)
    : QWidget(parent), session_(session), moved_(std::move(moved))
{
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    auto* inner = new QWidget;
    auto* columns = new QVBoxLayout(inner);
    columns->setSpacing(kGap_px);
    columns->setContentsMargins({});
    columns->addWidget(make_result());
    columns->addWidget(make_list());
    columns->addWidget(make_readings());
    // At the end: whoever says that all of it is back has had all of it in sight.
    columns->addWidget(make_buttons());
    columns->addStretch(1);
    auto* scroll = named(new QScrollArea, "handBackScroll", tr("hand-back list"));
    scroll->setWidget(inner);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFocusPolicy(Qt::NoFocus);
    layout->addWidget(scroll, 1);
    bar_ = scroll->verticalScrollBar();
    connect(bar_, &QScrollBar::valueChanged, this, &HandBackPanel::look_again);
    connect(bar_, &QScrollBar::rangeChanged, this, &HandBackPanel::look_again);
}

bool HandBackPanel::seen_to_the_end() const { return bar_->value() >= bar_->maximum(); }

/// One thing at a time is the one to do.
void HandBackPanel::look_again()
{
    make_primary(all_, seen_to_the_end());
    moved_();
}

void HandBackPanel::go_on()
{
    if (seen_to_the_end()) {
        finish(true);
    } else {
        bar_->triggerAction(QScrollBar::SliderPageStepAdd);
    }
}

/// Provisional: what is set back and read back from here on may still make it incomplete.
QWidget* HandBackPanel::make_result()
{
    auto* said = large_label("resultSoFar", tr("result so far"), kListPoints, true);
    const auto& result = session_.result();
    const bool stopped = session_.ending() == session::Ending::given_back;
    said->setVisible(result.has_value());
    if (result) {
        const auto text = stopped ? session::sign_of(metrology::Outcome::incomplete) + u' ' + tr("Incomplete")
                                  : result->sign + u' ' + result->headline;
        said->setText(tr("Result so far: %1. It stands once the unit is handed back.").arg(text));
        if (fill_of(result->tone).isValid() && !stopped) {
            fill_with(said, result->tone);
        }
    }
    return said;
}

QWidget* HandBackPanel::make_list()
{
    QString text;
    for (const auto& item : session::hand_back_list(session_.set_up().order.meaning, session_.what_to_hand_back())) {
        text += QStringLiteral("\u2022 ") + QString::fromStdString(item) + u'\n';
    }
    auto* list = large_label("handBackList", tr("what is given back, and how"), kListPoints);
    list->setText(text.trimmed());
    return card_of({list});
}

void HandBackPanel::say_as_prescribed() { left_->say_as_prescribed(); }

QWidget* HandBackPanel::make_readings()
{
    const auto& order = session_.set_up().order.meaning;
    displayed_ = new DisplayedFields(order, QStringLiteral("displayed"));
    displayed_->put(session_.displayed());
    left_ = new SettingsFields(order, QStringLiteral("left"));
    if (session_.set_up().simulated) {
        left_->put(session_.set_up().simulated->panel().set);
    }
    return card_of({heading(tr("What the unit displayed in the long holds")), displayed_,
                    heading(tr("What the unit is set to now, read from its screen")), left_});
}

QWidget* HandBackPanel::make_buttons()
{
    all_ = primary(button("handedBack", session_.what_to_hand_back().held
                                            ? tr("Made safe and held back, all of it  [Space]")
                                            : tr("All of it is back and was read back  [Space]")));
    auto* not_all = button("notHandedBack", tr("Not all of it: end here"));
    connect(all_, &QPushButton::clicked, this, [this] { finish(true); });
    connect(not_all, &QPushButton::clicked, this, [this] { finish(false); });
    auto* row = row_of({all_, not_all});
    if (session_.view().can_take_back) {
        auto* take_back = button("takeBack", tr("Go on with the run: nothing was touched"));
        connect(take_back, &QPushButton::clicked, this, [this] { session_.take_back(); });
        row->layout()->addWidget(take_back);
    }
    put_gap(row);
    return row;
}

void HandBackPanel::finish(bool done)
{
    session_.hand_back(done, displayed_->displayed(), left_->settings(), left_->stated_as_prescribed());
}

} // namespace zeroline::window
