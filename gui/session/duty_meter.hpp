#pragma once

namespace zeroline::session {

/// Counts how long a unit has cycled against a closed hose end since it last rested for long enough, over whatever
/// steps a procedure has.
class DutyMeter {
public:
    /// At each sample: whether the unit cycles by itself, and how long the pressure has been at rest.
    void note(double now_s, bool cycles, double still_for_s, double rest_s)
    {
        const double passed_s = now_s - last_s_;
        last_s_ = now_s;
        if (still_for_s >= kEnough * rest_s) {
            cycled_s_ = 0.0;
        } else if (cycles) {
            cycled_s_ += passed_s;
        }
    }
    [[nodiscard]] double cycled_s() const noexcept { return cycled_s_; }

    static constexpr double kEnough = 0.95; ///< of a rest: hand and clock differ a little

private:
    double cycled_s_ = 0.0, last_s_ = 0.0;
};

} // namespace zeroline::session
