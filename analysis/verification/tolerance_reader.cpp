#include "analysis/verification/tolerance_reader.hpp"

namespace zeroline::verification {

namespace {

using trace::JsonReader;

/// What kind of measurand a tolerance is for: which keys mean something there.
enum class ToleranceOf { pressure, duration, residual, zero, display, oscillation };

double above_zero(const JsonReader& at, double high)
{
    const double value = at.number(0.0, high);
    if (value == 0.0) {
        at.refuse("0", "a number above 0");
    }
    return value;
}

void check_keys(const JsonReader& at, ToleranceOf kind, bool general)
{
    switch (kind) {
    case ToleranceOf::pressure:
        if (general) {
            at.object_with_only({"absolute", "relative", "combine", "at_most", "lower", "upper", "basis",
                                 "insufflation", "exsufflation"});
            return;
        }
        break;
    case ToleranceOf::duration:
        if (general) {
            at.object_with_only({"absolute", "relative", "combine", "at_most", "lower", "upper", "definition", "basis",
                                 "insufflation", "exsufflation", "pause"});
        } else {
            at.object_with_only(
                {"absolute", "relative", "combine", "at_most", "lower", "upper", "definition", "basis"});
        }
        return;
    case ToleranceOf::residual:
        at.object_with_only({"absolute", "lower", "upper", "basis"});
        return;
    case ToleranceOf::zero:
        at.object_with_only({"absolute", "within", "basis"});
        return;
    case ToleranceOf::display:
    case ToleranceOf::oscillation:
        break;
    }
    at.object_with_only({"absolute", "relative", "combine", "at_most", "lower", "upper", "basis"});
}

bool has_figure(const JsonReader& at)
{
    return at.has("absolute") || at.has("relative") || at.has("lower") || at.has("upper");
}

void refuse_contradictions(const JsonReader& at)
{
    const bool apart = at.has("lower") || at.has("upper");
    for (const auto* key : {"absolute", "relative", "combine", "at_most"}) {
        if (apart && at.has(key)) {
            at.at(key).refuse("beside lower or upper", "either lower and upper, or absolute and relative");
        }
    }
    if (at.has("combine") && !(at.has("absolute") && at.has("relative"))) {
        at.at("combine").refuse("only one width to combine", "absolute and relative beside it");
    }
    if (at.has("at_most") && !at.has("relative")) {
        at.at("at_most").refuse("a cap on a fixed width", "relative beside it");
    }
}

void read_widths(const JsonReader& at, Tolerance& tolerance)
{
    constexpr double kWidest = 100.0;
    const auto width = [&](const char* key, double high) -> std::optional<double> {
        const auto place = at.find(key);
        return place ? std::optional<double>(above_zero(*place, high)) : std::nullopt;
    };
    tolerance.absolute = width("absolute", kWidest);
    tolerance.relative = width("relative", 1.0);
    tolerance.at_most = width("at_most", kWidest);
    tolerance.within_s = width("within", 10.0);
    if (const auto lower = at.find("lower")) {
        tolerance.lower = lower->number(0.0, kWidest);
    }
    if (const auto upper = at.find("upper")) {
        tolerance.upper = upper->number(0.0, kWidest);
    }
}

Tolerance read_tolerance(const JsonReader& at, ToleranceOf kind, bool general, const std::string& common_basis)
{
    check_keys(at, kind, general);
    if (!has_figure(at)) {
        at.refuse("no width", "absolute, relative, lower or upper");
    }
    refuse_contradictions(at);
    Tolerance tolerance;
    read_widths(at, tolerance);
    if (const auto combine = at.find("combine")) {
        tolerance.combine =
            combine->one_of({"wider", "sum"}) == 0 ? Tolerance::Combine::wider : Tolerance::Combine::sum;
    }
    if (const auto definition = at.find("definition")) {
        tolerance.mid_level = definition->one_of({"onset", "mid-level"}) == 1;
    }
    const auto basis = at.find("basis");
    tolerance.basis = basis ? basis->filled_text() : common_basis;
    if (tolerance.basis.empty()) {
        at.refuse("no basis, neither here nor for all tolerances", "\"basis\": where the figure comes from");
    }
    return tolerance;
}

/// A tolerance with entries of its own for single phases. Without a figure of its own it stands for its phases only.
class Phased {
public:
    Phased(const JsonReader& at, ToleranceOf kind, const std::string& basis) : at_(at), kind_(kind), basis_(basis)
    {
        check_keys(at_, kind_, true);
        const bool some_phase = at_.has("insufflation") || at_.has("exsufflation") || at_.has("pause");
        if (has_figure(at_) || !some_phase) {
            general_ = read_tolerance(at_, kind_, true, basis_);
            return;
        }
        for (const auto* key : {"combine", "at_most", "definition"}) {
            if (at_.has(key)) {
                at_.at(key).refuse("no width it could belong to", "absolute, relative, lower or upper beside it");
            }
        }
    }

    [[nodiscard]] std::optional<Tolerance> general() const { return general_; }

    [[nodiscard]] std::optional<Tolerance> of(const char* phase) const
    {
        const auto own = at_.find("basis");
        const auto place = at_.find(phase);
        return place ? std::optional<Tolerance>(read_tolerance(*place, kind_, false, own ? own->filled_text() : basis_))
                     : std::nullopt;
    }

private:
    JsonReader at_;
    ToleranceOf kind_;
    std::string basis_;
    std::optional<Tolerance> general_;
};

void read_phased(const JsonReader& at, Tolerances& tolerances)
{
    if (const auto place = at.find("pressure")) {
        const Phased pressure(*place, ToleranceOf::pressure, tolerances.basis);
        tolerances.pressure = pressure.general();
        tolerances.insufflation_pressure = pressure.of("insufflation");
        tolerances.exsufflation_pressure = pressure.of("exsufflation");
    }
    if (const auto place = at.find("duration")) {
        const Phased duration(*place, ToleranceOf::duration, tolerances.basis);
        tolerances.duration = duration.general();
        tolerances.insufflation_duration = duration.of("insufflation");
        tolerances.exsufflation_duration = duration.of("exsufflation");
        tolerances.pause_duration = duration.of("pause");
    }
}

Tolerances read_profile(const JsonReader& at, const std::string& fallback_basis)
{
    at.object_with_only({"basis", "approved_by", "pressure", "duration", "residual", "zero", "display",
                         "oscillation_frequency", "oscillation_amplitude", "limits"});
    Tolerances tolerances;
    const auto basis = at.find("basis");
    tolerances.basis = basis ? basis->filled_text() : fallback_basis;
    if (const auto name = at.find("approved_by")) {
        tolerances.approved_by = name->text();
    }
    read_phased(at, tolerances);
    const auto single = [&](const char* key, ToleranceOf kind) -> std::optional<Tolerance> {
        const auto place = at.find(key);
        return place ? std::optional<Tolerance>(read_tolerance(*place, kind, false, tolerances.basis)) : std::nullopt;
    };
    tolerances.residual = single("residual", ToleranceOf::residual);
    tolerances.zero = single("zero", ToleranceOf::zero);
    tolerances.display = single("display", ToleranceOf::display);
    tolerances.oscillation_frequency = single("oscillation_frequency", ToleranceOf::oscillation);
    tolerances.oscillation_amplitude = single("oscillation_amplitude", ToleranceOf::oscillation);
    if (const auto limits = at.find("limits")) {
        limits->object_with_only({"peak"});
        if (const auto peak = limits->find("peak")) {
            tolerances.peak_limit_cmH2O = peak->number(5.0, 200.0);
        }
    }
    return tolerances;
}

void take(std::optional<Tolerance>& onto, const std::optional<Tolerance>& from)
{
    if (from) {
        onto = from;
        onto->house = true;
    }
}

void lay_over(Tolerances& standard, const Tolerances& given)
{
    take(standard.pressure, given.pressure);
    take(standard.insufflation_pressure, given.insufflation_pressure);
    take(standard.exsufflation_pressure, given.exsufflation_pressure);
    take(standard.duration, given.duration);
    take(standard.insufflation_duration, given.insufflation_duration);
    take(standard.exsufflation_duration, given.exsufflation_duration);
    take(standard.pause_duration, given.pause_duration);
    take(standard.residual, given.residual);
    take(standard.zero, given.zero);
    take(standard.display, given.display);
    take(standard.oscillation_frequency, given.oscillation_frequency);
    take(standard.oscillation_amplitude, given.oscillation_amplitude);
    standard.peak_limit_cmH2O = given.peak_limit_cmH2O ? given.peak_limit_cmH2O : standard.peak_limit_cmH2O;
}

} // namespace

Tolerances read_tolerances(const JsonReader& at) { return read_profile(at, {}); }

HouseProfile read_house_profile(const JsonReader& at)
{
    at.object_with_only({"basis", "approved_by", "tolerances", "limits"});
    auto house = HouseProfile::standard();
    if (const auto basis = at.find("basis")) {
        house.basis = basis->filled_text();
    }
    if (const auto name = at.find("approved_by")) {
        house.approved_by = name->text();
    }
    if (const auto profile = at.find("tolerances")) {
        lay_over(house.tolerances, read_profile(*profile, house.basis));
    }
    if (const auto limits = at.find("limits")) {
        limits->object_with_only({"zero_offset", "zero_drift", "leak", "peak_hold", "battery"});
        const auto limit = [&](const char* key, double& onto) {
            if (const auto place = limits->find(key)) {
                onto = above_zero(*place, 10.0);
            }
        };
        limit("zero_offset", house.zero_offset_cmH2O);
        limit("zero_drift", house.zero_drift_cmH2O);
        limit("leak", house.leak_cmH2O_per_s);
        limit("peak_hold", house.peak_hold_s);
        limit("battery", house.battery_cmH2O);
    }
    return house;
}

} // namespace zeroline::verification
