#include "gui/window/held_display.hpp"

#include "gui/window/page_parts.hpp"
#include "gui/window/settings_fields.hpp"
#include "gui/window/space_key.hpp"

#include <QLabel>
#include <QVBoxLayout>

#include <algorithm>
#include <utility>

namespace zeroline::window {

HeldDisplay::HeldDisplay(session::BenchSession& session, std::function<void()> go_on, QWidget* parent)
    : QFrame(parent), session_(session), go_on_(std::move(go_on))
{
    auto* layout = new QVBoxLayout(this);
    setProperty("card", true);
    layout->setContentsMargins(kGap_px, kAir_px, kGap_px, kAir_px);
    layout->setSpacing(kAir_px);
    layout->addWidget(heading(tr("What the unit displays while you hold")));
    hide();
}

void HeldDisplay::show_step(const session::RunView& view)
{
    const bool wanted = view.step == session::StepKind::manual && !session_.set_up().simulated;
    if (wanted && preset_ != view.preset) {
        delete fields_;
        preset_ = view.preset;
        fields_ = new DisplayedFields(session_.set_up().order.meaning, QStringLiteral("held"), view.preset);
        fields_->put(session_.displayed());
        let_space_through(fields_, go_on_);
        connect(fields_, &DisplayedFields::edited, this, &HeldDisplay::note);
        layout()->addWidget(fields_);
    }
    setVisible(wanted);
}

void HeldDisplay::note()
{
    auto all = session_.displayed();
    for (const auto& typed : fields_->displayed()) {
        std::replace_if(
            all.begin(), all.end(), [&](const auto& one) { return one.preset == typed.preset; }, typed);
    }
    session_.note_displayed(std::move(all));
}

} // namespace zeroline::window
