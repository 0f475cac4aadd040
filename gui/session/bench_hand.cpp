#include "gui/session/bench_hand.hpp"

#include <optional>
#include <utility>

namespace zeroline::session {

using virtual_bench::Action;
using Kind = virtual_bench::Action::Kind;

namespace {

constexpr double kReads_s = 1.5; ///< a person reads what is asked for
constexpr double kPlugs_s = 3.0;
constexpr double kPresses_s = 1.5; ///< then the hand is off
constexpr double kHolds_s = 3.0;
constexpr double kDials_s = 4.0;
constexpr int kMostStarts = 3; ///< a unit that stops again and again is not started for ever

Action dials(const RunView& view)
{
    const auto& to = *view.dialled;
    const auto value = [](const std::optional<double>& set) { return set.value_or(0.0); };
    return {Kind::dial, kDials_s, view.preset, 0,
            virtual_bench::Dialled{value(to.insufflation_pressure), value(to.exsufflation_pressure),
                                   value(to.insufflation_duration), value(to.exsufflation_duration),
                                   value(to.pause_duration)}};
}

Action reads() { return {Kind::wait, kReads_s, {}, 0}; }

} // namespace

std::vector<Action> BenchHand::next(const RunView& view)
{
    const auto asked = std::tuple(view.number, view.deed, view.holds);
    const auto before = std::exchange(done_, asked);
    if (before == asked) {
        return {};
    }
    if (before && std::get<0>(*before) != view.number) {
        starts_ = 0;
    }
    return actions_for(view);
}

std::vector<Action> BenchHand::actions_for(const RunView& view)
{
    const bool holding = std::exchange(holding_, view.deed == Deed::plug_and_hold);
    switch (view.deed) {
    case Deed::nothing:
    case Deed::hose_off:
    case Deed::let_go:
        return {};
    case Deed::press_syringe:
        if (!view.press_cmH2O) {
            return {};
        }
        syringe_in_ = true;
        return {reads(), {Kind::syringe, kPresses_s, {}, 0, {}, *view.press_cmH2O}};
    case Deed::fit_orifice:
        if (++starts_ > kMostStarts) {
            return {};
        }
        return {{Kind::stop, kReads_s, {}, 0},
                {Kind::orifice, kPlugs_s, {}, 0, {}, 0.0, view.orifice_mm.value_or(0.0)},
                {Kind::automatic, 0.0, view.preset, 0}};
    case Deed::put_plug_back:
        return {{Kind::stop, kReads_s, {}, 0}, {Kind::plug, kPlugs_s, {}, 0}};
    case Deed::open_line:
        return {{Kind::stop, kReads_s, {}, 0}, {Kind::open_to_air, 0.0, {}, 0}};
    case Deed::plug_and_hold:
        if (std::exchange(syringe_in_, false)) { // what it pressed in is let off first
            return {{Kind::open_to_air, kReads_s, {}, 0},
                    {Kind::plug, kPlugs_s, {}, 0},
                    {Kind::hold_insufflation, kHolds_s, {}, 0}};
        }
        return {reads(), {Kind::plug, kPlugs_s, {}, 0}, {Kind::hold_insufflation, kHolds_s, {}, 0}};
    case Deed::insufflate:
        if (holding) {
            return {};
        }
        return {reads(), {Kind::hold_insufflation, kHolds_s, {}, 0}};
    case Deed::exsufflate:
        return {reads(), {Kind::hold_exsufflation, kHolds_s, {}, 0}};
    case Deed::start_automatic:
        if (++starts_ > kMostStarts) {
            return {};
        }
        return {reads(), {Kind::automatic, 0.0, view.preset, 0}};
    case Deed::stop_unit:
        return {{Kind::stop, 0.0, {}, 0}};
    case Deed::make_safe:
        return {{Kind::stop, 0.0, {}, 0}, {Kind::open_to_air, 0.0, {}, 0}};
    case Deed::dial:
        if (++starts_ > kMostStarts) {
            return {};
        }
        return {{Kind::stop, kReads_s, {}, 0}, dials(view), {Kind::automatic, 0.0, view.preset, 0}};
    case Deed::dial_back:
        return {{Kind::stop, kReads_s, {}, 0}, dials(view)};
    case Deed::select_preset:
        return {{Kind::stop, kReads_s, {}, 0}, {Kind::connect_preset, kDials_s, view.preset, 0}};
    }
    return {};
}

} // namespace zeroline::session
