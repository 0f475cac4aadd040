#include "analysis/verification/findings/every_finding.hpp"

#include "analysis/signal/shape.hpp"
#include "analysis/signal/statistics.hpp"
#include "analysis/verification/findings/breath.hpp"
#include "analysis/verification/findings/phase_shapes.hpp"
#include "analysis/verification/findings/wording.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

namespace zeroline::verification {

namespace {

constexpr double kSlowest_hz = 0.1, kFastest_hz = 1.0; // 6 to 60 breaths a minute
constexpr double kBreath_cmH2O = 0.3;
constexpr double kNoises = 3.0;
constexpr double kExplained = 0.7;       // of what the pauses do not have in common
constexpr double kExplainedWithin = 0.5; // of what moves within the pauses, so that uneven pauses are no breath
constexpr double kBlock_s = 0.1;
constexpr double kAfterRelease_s = 0.25, kAfterMids = 5.0;
constexpr double kBeforeEnd_s = 0.05;
constexpr std::size_t kFewestPauses = 3, kFewestBlocks = 4;
constexpr std::size_t kMostPauses = 40; // a longer run is looked at in parts: nobody breathes by a metronome

constexpr double kExplainedInStep = 0.85, kSameAmplitude = 0.4;
constexpr double kToldApart = 1e-3; // how different two unknowns must look to be told apart
constexpr double kFewestPeriods = 1.2;
constexpr double kIdle_s = 4.0, kIdleFrom_s = 1.5; // what putting the plug in does is over by then
constexpr double kLongestIdle_s = 60.0;
constexpr double kAtWork = 0.2; // of the larger plateau

constexpr double kNothingNear = 0.4; // of the smaller set plateau: no unit that works at all is so far below
constexpr double kByHand_s = 12.0, kByHandHop_s = 1.0, kLeastByHand_s = 6.0;
constexpr double kSlowestByHand_hz = 0.15;  // holds of some seconds come and go more slowly
constexpr double kSteep = 3.0;              // times the steepest block of the sinusoid: a valve is quicker
constexpr double kFlat = 0.2, kRests = 0.5; // a hold rests for most of its time

using Rows = std::vector<std::vector<double>>;

/// Sinusoid that fits best: amplitude, and the part of the squares that it explains.
struct Swing {
    double frequency_hz = 0.0, amplitude_cmH2O = 0.0, explained = 0.0;
};

/// Sums over all blocks, of sine, cosine and pressure.
struct Products {
    double ss = 0.0, cc = 0.0, sc = 0.0, sy = 0.0, cy = 0.0;

    Products(const Rows& sine, const Rows& cosine, const Rows& pressure)
    {
        for (std::size_t i = 0; i < sine.size(); ++i)
            for (std::size_t j = 0; j < sine[i].size(); ++j) {
                const double s = sine[i][j], c = cosine[i][j], y = pressure[i][j];
                ss += s * s;
                cc += c * c;
                sc += s * c;
                sy += s * y;
                cy += c * y;
            }
    }
};

/// Sine and cosine of one frequency in place of the pressures.
struct Waves {
    Rows sine, cosine;
};

void draw(Waves& waves, const PhaseShapes& shapes, double frequency_hz)
{
    const double rate = 2.0 * std::numbers::pi * frequency_hz;
    const std::complex<double> turn = std::polar(1.0, rate * shapes.block_s);
    waves.sine.resize(shapes.phases());
    waves.cosine.resize(shapes.phases());
    for (std::size_t i = 0; i < shapes.phases(); ++i) {
        const std::size_t blocks = shapes.pressure[i].size();
        waves.sine[i].resize(blocks);
        waves.cosine[i].resize(blocks);
        std::complex<double> now =
            std::polar(1.0, rate * (shapes.start_s[i] - shapes.start_s[0] + 0.5 * shapes.block_s));
        for (std::size_t j = 0; j < blocks; ++j) {
            waves.sine[i][j] = now.imag();
            waves.cosine[i][j] = now.real();
            now = {now.real() * turn.real() - now.imag() * turn.imag(),
                   now.real() * turn.imag() + now.imag() * turn.real()};
        }
    }
}

/// Least squares of one frequency, on what the rows do not have in common.
class SwingFit {
public:
    SwingFit(const PhaseShapes& shapes, TakenOff taken_off)
        : shapes_(shapes), taken_off_(taken_off), own_(shapes.pressure)
    {
        take_off(taken_off_, own_);
        for (const auto& row : own_)
            for (const double value : row) {
                squares_ += value * value;
                cells_ += 1.0;
            }
    }

    /// No swing that can be told has more: it explains its amplitude squared, times at least the smaller root of the
    /// determinant's bound.
    [[nodiscard]] double largest_cmH2O() const { return std::sqrt(squares_ / (kToldApart * std::max(cells_, 1.0))); }

    [[nodiscard]] Swing at(double frequency_hz)
    {
        draw(waves_, shapes_, frequency_hz);
        take_off(taken_off_, waves_.sine);
        take_off(taken_off_, waves_.cosine);
        const auto [ss, cc, sc, sy, cy] = Products(waves_.sine, waves_.cosine, own_);
        const double determinant = ss * cc - sc * sc;
        // In step with the cycles, a breath looks the same in every pause: nothing can be said.
        if (determinant < kToldApart * cells_ * cells_ || squares_ <= 0.0)
            return {frequency_hz, 0.0, 0.0};
        const double a = (cc * sy - sc * cy) / determinant, b = (ss * cy - sc * sy) / determinant;
        return {frequency_hz, std::hypot(a, b), (a * sy + b * cy) / squares_};
    }

private:
    const PhaseShapes& shapes_;
    TakenOff taken_off_;
    Rows own_;
    Waves waves_;
    double squares_ = 0.0, cells_ = 0.0;
};

/// The best of frequencies a fifth of a line's width apart. Every other one tells where it is worth looking at those
/// between. Swings that cannot reach `least_cmH2O` are not looked for.
Swing best_swing(const PhaseShapes& shapes, TakenOff taken_off, double least_cmH2O)
{
    constexpr double kWorthLooking = 0.3; // explained; next to a swing that explains enough it is twice that
    SwingFit fit(shapes, taken_off);
    Swing best;
    if (fit.largest_cmH2O() < least_cmH2O)
        return best;
    const double seen_s =
        shapes.start_s.back() - shapes.start_s.front() + shapes.block_s * static_cast<double>(shapes.blocks());
    const double from_hz = std::max(kSlowest_hz, kFewestPeriods / seen_s), step_hz = 0.2 / seen_s;
    const auto try_at = [&](double frequency_hz) {
        const auto swing = fit.at(frequency_hz);
        if (swing.explained > best.explained)
            best = swing;
        return swing.explained > kWorthLooking;
    };
    bool before = false;
    for (double f = from_hz; f <= kFastest_hz; f += 2.0 * step_hz) {
        const bool here = try_at(f);
        if ((here || before) && f > from_hz)
            try_at(f - step_hz);
        before = here;
    }
    return best;
}

/// The sensor's noise from sample to sample at the open port: where somebody breathes into that too, its spread is
/// breath.
double sensor_noise_cmH2O(const FindingBasis& basis)
{
    double noise = basis.measured_trace.noise_cmH2O;
    if (basis.measured_trace.evidence->run)
        for (const auto& span : basis.measured_trace.evidence->run->spans)
            if (span.what == SpanKind::zero_before)
                noise = std::min(noise, signal::sample_noise(basis.samples_between(span.from_s, span.to_s)));
    return noise;
}

double smallest_breath_cmH2O(const FindingBasis& basis)
{
    return std::max(kBreath_cmH2O, kNoises * sensor_noise_cmH2O(basis));
}

bool moves_within(const PhaseShapes& shapes, const Swing& swing)
{
    constexpr TakenOff kBoth{true, true, false};
    return SwingFit(shapes, kBoth).at(swing.frequency_hz).explained > kExplainedWithin;
}

PhaseShapes part_of(const PhaseShapes& shapes, std::size_t first, std::size_t count)
{
    PhaseShapes part;
    part.block_s = shapes.block_s;
    for (std::size_t i = first; i < std::min(first + count, shapes.phases()); ++i) {
        part.start_s.push_back(shapes.start_s[i]);
        part.pressure.push_back(shapes.pressure[i]);
    }
    return part;
}

bool is_breath(const FindingBasis& basis, const Swing& swing)
{
    return swing.amplitude_cmH2O > smallest_breath_cmH2O(basis) && swing.explained > kExplained;
}

double after_release_s(const MeasuredSpan& span)
{
    std::vector<double> to_middle_s; // a breath that rides on the release changes its end, hardly its middle
    for (const auto& phase : span.phases)
        if (phase.kind == kPause && phase.entering)
            to_middle_s.push_back(phase.entering->mid.time_s - phase.entering->onset.time_s);
    return std::max(kAfterRelease_s, kAfterMids * signal::median(std::move(to_middle_s)).value_or(0.0));
}

/// Swings in the pauses of a span.
std::optional<Swing> in_pauses(const FindingBasis& basis, const MeasuredSpan& span)
{
    const auto shapes = shapes_of(basis, span, kPause, after_release_s(span), kBeforeEnd_s, kBlock_s);
    for (std::size_t first = 0; first < shapes.phases(); first += kMostPauses) {
        const auto part = part_of(shapes, first, kMostPauses);
        if (part.phases() < kFewestPauses || part.blocks() < kFewestBlocks)
            continue;
        const auto swing = best_swing(part, {false, true, false}, smallest_breath_cmH2O(basis));
        if (is_breath(basis, swing) && moves_within(part, swing))
            return swing;
    }
    return std::nullopt;
}

/// Stretches between the spans in which nothing is done, and open-port readings.
std::vector<std::pair<double, double>> idle_stretches(const FindingBasis& basis)
{
    std::vector<std::pair<double, double>> idle;
    if (basis.measured_trace.samples.size() == 0 || !basis.measured_trace.evidence->run)
        return idle;
    auto spans = basis.measured_trace.evidence->run->spans;
    std::sort(spans.begin(), spans.end(), [](const auto& a, const auto& b) { return a.from_s < b.from_s; });
    double from_s = basis.measured_trace.samples.time_s.front();
    for (const auto& span : spans) {
        idle.emplace_back(from_s, span.from_s);
        if (span.what == SpanKind::zero_before || span.what == SpanKind::zero_after)
            idle.emplace_back(span.from_s - kIdleFrom_s, span.to_s);
        from_s = span.to_s;
    }
    idle.erase(std::remove_if(idle.begin(), idle.end(), [](const auto& s) { return s.second - s.first < kIdle_s; }),
               idle.end());
    return idle;
}

/// The unit is at work somewhere in the stretch.
bool at_work(const FindingBasis& basis, double from_s, double to_s)
{
    const double limit = kAtWork * std::max(basis.measured_trace.larger_plateau_cmH2O, 5.0);
    const auto samples = basis.samples_between(from_s, to_s);
    return std::any_of(samples.pressure_cmH2O.begin(), samples.pressure_cmH2O.end(),
                       [limit](double pressure) { return std::abs(pressure) > limit; });
}

std::optional<Swing> in_idle(const FindingBasis& basis, double from_s, double to_s)
{
    PhaseShapes row;
    row.block_s = kBlock_s;
    append_stretch(row, basis, from_s, std::min(to_s, from_s + kLongestIdle_s));
    if (row.phases() == 0 || static_cast<double>(row.blocks()) * kBlock_s < kIdle_s - kIdleFrom_s ||
        at_work(basis, from_s, to_s))
        return std::nullopt;
    const auto swing = best_swing(row, {true, false, false}, smallest_breath_cmH2O(basis));
    return is_breath(basis, swing) ? std::optional(swing) : std::nullopt;
}

void append_pauses(PhaseShapes& rows, const FindingBasis& basis, const MeasuredSpan& span)
{
    for (const auto& phase : span.phases) {
        if (phase.kind != kPause || phase.cut_begin || rows.phases() == kMostPauses)
            continue;
        const double to_s = phase.leaving ? phase.leaving->onset.time_s : phase.last_time_s;
        append_stretch(rows, basis, phase.start_s() + after_release_s(span), to_s - kBeforeEnd_s);
    }
}

/// A breath in step with the cycles looks the same in every pause; by hand the pauses come at other times. One swing
/// must go on through both, and nothing that releases leave behind does: it has one sign after blowing and the other
/// after suction.
std::optional<Swing> in_step(const FindingBasis& basis)
{
    PhaseShapes by_hand, all;
    by_hand.block_s = all.block_s = kBlock_s;
    for (const auto& span : basis.measured_trace.spans) {
        append_pauses(all, basis, span);
        if (span.span.what == SpanKind::manual)
            append_pauses(by_hand, basis, span);
    }
    if (by_hand.phases() < kFewestPauses || all.phases() < 2 * kFewestPauses)
        return std::nullopt;
    constexpr TakenOff kMean{false, false, true};
    const auto swing = best_swing(all, kMean, smallest_breath_cmH2O(basis));
    const auto manual = SwingFit(by_hand, kMean).at(swing.frequency_hz);
    const bool goes_on = swing.explained > kExplainedInStep && manual.explained > kExplainedInStep &&
                         std::abs(manual.amplitude_cmH2O / swing.amplitude_cmH2O - 1.0) < kSameAmplitude;
    return goes_on && is_breath(basis, swing) ? std::optional(swing) : std::nullopt;
}

/// Neither the edges of a valve nor the rests of a hold.
bool moves_like_a_breath(const std::vector<double>& blocks, const Swing& swing, double noise_cmH2O)
{
    const double steepest = 2.0 * std::numbers::pi * swing.frequency_hz * kBlock_s * swing.amplitude_cmH2O;
    std::size_t flat = 0;
    for (std::size_t i = 1; i < blocks.size(); ++i) {
        const double step = std::abs(blocks[i] - blocks[i - 1]);
        if (step > kSteep * steepest + kNoises * noise_cmH2O)
            return false;
        flat += step < kFlat * steepest ? 1 : 0;
    }
    return static_cast<double>(flat) < kRests * static_cast<double>(blocks.size());
}

/// Nobody breathes by a metronome, so that a long span is looked at in parts.
std::optional<Swing> by_hand(const FindingBasis& basis, const MeasuredSpan& span)
{
    if (!nothing_comes_near(basis.measured_trace, span))
        return std::nullopt;
    for (double from_s = span.span.from_s; from_s + kLeastByHand_s <= span.span.to_s; from_s += kByHandHop_s) {
        PhaseShapes row;
        row.block_s = kBlock_s;
        append_stretch(row, basis, from_s, std::min(from_s + kByHand_s, span.span.to_s));
        if (row.phases() == 0 || static_cast<double>(row.blocks()) * kBlock_s < kLeastByHand_s - kBlock_s)
            continue;
        const auto swing = best_swing(row, {true, false, false}, smallest_breath_cmH2O(basis));
        if (swing.frequency_hz >= kSlowestByHand_hz && is_breath(basis, swing) &&
            moves_like_a_breath(row.pressure.front(), swing, basis.measured_trace.noise_cmH2O))
            return swing;
    }
    return std::nullopt;
}

/// Where somebody seems to breathe: first time seen, and the swing.
struct Breath {
    double at_s;
    Swing swing;
};

std::optional<Breath> breath_in(const FindingBasis& basis)
{
    for (const auto& span : basis.measured_trace.spans) {
        const auto swing = span.span.what == SpanKind::manual ? by_hand(basis, span) : in_pauses(basis, span);
        if (swing)
            return Breath{span.span.from_s, *swing};
    }
    if (const auto swing = in_step(basis))
        return Breath{basis.measured_trace.spans.front().span.from_s, *swing};
    for (const auto& [from_s, to_s] : idle_stretches(basis))
        if (const auto swing = in_idle(basis, from_s + kIdleFrom_s, to_s))
            return Breath{from_s, *swing};
    return std::nullopt;
}

} // namespace

bool nothing_comes_near(const MeasuredTrace& measured_trace, const MeasuredSpan& span)
{
    const double smaller =
        std::min(std::abs(span.set.insufflation.pressure_cmH2O), std::abs(span.set.exsufflation.pressure_cmH2O));
    const auto pressure = measured_trace.samples.pressure_cmH2O.subspan(span.first, span.last - span.first);
    return std::none_of(pressure.begin(), pressure.end(),
                        [limit = kNothingNear * smaller](double p) { return std::abs(p) > limit; });
}

bool breathes_by_hand(const FindingBasis& basis, const MeasuredSpan& span) { return by_hand(basis, span).has_value(); }

Findings breathing(const FindingBasis& basis)
{
    const auto breath = breath_in(basis);
    if (!breath)
        return {};
    const auto& swing = breath->swing;
    auto found = finding("breathing", Severity::critical,
                         {"somebody breathing at the hose",
                          "the resting pressure swings by " + in_words(swing.amplitude_cmH2O) +
                              " cmH2O to either side, " + in_words(60.0 * swing.frequency_hz, 0) + " times a minute",
                          "again with nobody connected"});
    found.text.insert(0, "Stop. Is someone connected? Take the hose off the person. ");
    found.touches = basis.all_measurands();
    found.times_s = {breath->at_s};
    found.figures = {{"amplitude_cmH2O", swing.amplitude_cmH2O}, {"frequency_hz", swing.frequency_hz}};
    return {found};
}

} // namespace zeroline::verification
