#pragma once

#include "analysis/signal/phases.hpp"
#include "analysis/verification/measured_trace.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace zeroline::verification {

/// What sort of quantity a measurand is.
enum class MeasurandKind {
    pressure,    ///< plateau of a phase
    duration,    ///< of a phase
    residual,    ///< pressure that stays in the pause
    return_time, ///< until the pressure is back in the zero band
    displayed,   ///< what the unit shows of a plateau
    difference,  ///< of the plateaus on battery and on mains
    frequency,   ///< of an oscillation
    amplitude    ///< of an oscillation
};

/// All that is known of a measurand whatever its value. The one table that screen, terminal, paper and judgement ask.
struct Measurand {
    std::string code;                       ///< as in a record
    const char* word = "";                  ///< for a person, in English
    std::string unit;                       ///< "cmH2O", "s", "Hz"
    int decimals = 2;                       ///< that are shown of a measured value
    std::optional<signal::PhaseKind> phase; ///< none: of no one phase
    MeasurandKind kind = MeasurandKind::pressure;

    /// A pressure against the room: shown with its sign, also a plus.
    [[nodiscard]] bool has_sign() const noexcept;
};

/// In the order in which they are shown.
[[nodiscard]] const std::vector<Measurand>& all_measurands();

/// Null for a code that nobody knows (a record of a newer program).
[[nodiscard]] const Measurand* measurand_named(std::string_view code);

/// True for what is measured of the pause.
[[nodiscard]] bool is_of_pause(std::string_view code);

/// The one measurand of this kind and phase; its code. There must be one.
[[nodiscard]] const std::string& measurand_of(MeasurandKind kind, signal::PhaseKind phase);

} // namespace zeroline::verification
