#include "analysis/signal/phases.hpp"

#include "analysis/signal/pipeline.hpp"
#include "analysis/signal/scout.hpp"
#include "analysis/signal/spikes.hpp"
#include "analysis/signal/statistics.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace zeroline::signal {

double Phase::start_s() const { return entering ? entering->onset.time_s : first_time_s; }

std::optional<double> Phase::duration_s() const
{
    if (!entering || !leaving) {
        return std::nullopt;
    }
    return leaving->onset.time_s - entering->onset.time_s;
}

std::optional<double> Phase::mid_level_duration_s() const
{
    if (!entering || !leaving) {
        return std::nullopt;
    }
    return leaving->mid.time_s - entering->mid.time_s;
}

namespace {

constexpr std::size_t kPiece = 4096; // samples taken into the buffer at a time: stays in the cache
constexpr std::size_t kRun = 64;     // samples looked at together on a steady dwell
constexpr double kClearlyQuieter = 0.8;
constexpr double kEnoughForOnePhase = 4.0; // periods that a phase alone must show to be believed
constexpr int kMostRounds = 5;             // of a slow oscillation's frequency ...
constexpr double kSameFrequency = 0.003;   // ... until it changes by no more than this part of it
constexpr double kSurelyPause_s = 1.0;     // no single edge takes that long through the rest's zone

// Steepest and flattest local slope (magnitude) of a stretch.
struct Slopes {
    double steepest = 0.0;
    double flattest = std::numeric_limits<double>::infinity();
};

Slopes slopes_of(Samples samples)
{
    constexpr double kLocal_s = 0.1;
    Slopes slopes;
    std::size_t first = 0;
    for (std::size_t last = 0; last < samples.size(); ++last) {
        if (last - first < 4 || samples.time_s[last] - samples.time_s[first] < kLocal_s - 1e-9) {
            continue;
        }
        const Samples local = samples.part(first, last + 1);
        if (const auto line = fit_line(local.time_s, local.pressure_cmH2O)) {
            slopes.steepest = std::max(slopes.steepest, std::abs(line->slope));
            slopes.flattest = std::min(slopes.flattest, std::abs(line->slope));
        }
        ++first;
    }
    return slopes;
}

// A slow swing may stay near the rest for longer than a dwell. A pause slows down between two edges; a single edge does
// not slow down and then run on.
bool passes_through(Samples before, Samples within, Samples after)
{
    const double flattest = slopes_of(within).flattest;
    return std::isfinite(flattest) &&
           (flattest > 0.5 * slopes_of(before).steepest || flattest > 0.5 * slopes_of(after).steepest);
}

} // namespace

class PhaseStream::State {
public:
    explicit State(MeasureOptions options)
        : options_(with_rest(options)), recognizer_(bounds()), pipeline_(options_), spike_floor_(floor_of_spikes()),
          live_(options.larger_plateau_cmH2O <= 0.0)
    {
    }

    void push(Samples block)
    {
        for (std::size_t first = 0; first < block.size(); first += kPiece) {
            buffer_.append(block.part(first, std::min(block.size(), first + kPiece)));
            scan(buffer_.end() > kSpikeReach ? buffer_.end() - kSpikeReach : 0);
            buffer_.drop_before(std::min(pipeline_.needed_from(), seen_ > kKept ? seen_ - kKept : 0));
        }
    }

    void finish()
    {
        scan(buffer_.end());
        if (const auto last = recognizer_.under_way(); last && !finished_) {
            hand_on(*last, true);
        }
        finished_ = true;
    }

    std::vector<Phase> take() { return pipeline_.take(); }

    std::optional<PhaseKind> now() const
    {
        const auto dwell = recognizer_.under_way();
        if (!dwell) {
            return std::nullopt;
        }
        if (dwell->zone == 0) {
            return PhaseKind::pause;
        }
        return dwell->zone > 0 ? PhaseKind::insufflation : PhaseKind::exsufflation;
    }

private:
    static constexpr std::size_t kKept = 2 * kSpikeReach + 2; // before the sample under test

    static MeasureOptions with_rest(MeasureOptions options)
    {
        options.rest_cmH2O = options.rest_cmH2O.value_or(options.pause_level_cmH2O);
        return options;
    }

    [[nodiscard]] ZoneBounds bounds() const
    {
        const double threshold = phase_threshold(options_.noise_cmH2O, options_.larger_plateau_cmH2O);
        return {*options_.rest_cmH2O - threshold, *options_.rest_cmH2O + threshold};
    }

    [[nodiscard]] double floor_of_spikes() const
    {
        constexpr double kJump = 1.2; // of the amplitude, which is known so well
        return std::max(spike_floor(options_.noise_cmH2O, options_.larger_plateau_cmH2O),
                        kJump * options_.oscillation_cmH2O);
    }

    void scan(std::size_t limit)
    {
        while (seen_ < limit) {
            if (!live_ && recognizer_.steady() && seen_ > kSpikeReach) {
                skip_steady(limit);
            }
            if (seen_ < limit && !take_spike(seen_)) {
                take_sample(seen_);
                ++seen_;
            } else if (seen_ < limit) {
                --limit;
            }
        }
    }

    // Whole runs that stay in the zone and hold nothing that could be a spike need no closer look.
    void skip_steady(std::size_t limit)
    {
        const std::size_t first = seen_;
        while (seen_ + kRun < limit && steady_run(seen_)) {
            seen_ += kRun;
        }
        if (seen_ > first) {
            recognizer_.skip_to(seen_, buffer_.time(seen_ - 1));
        }
    }

    [[nodiscard]] bool steady_run(std::size_t first) const
    {
        const Zone zone = recognizer_.under_way()->zone;
        const ZoneBounds edges = recognizer_.bounds();
        const double low = zone > 0 ? edges.upper_cmH2O : (zone < 0 ? -kFar : edges.lower_cmH2O);
        const double high = zone < 0 ? edges.lower_cmH2O : (zone > 0 ? kFar : edges.upper_cmH2O);
        // Strictly inside, so that a value on a bound is left to the closer look.
        const Samples run = buffer_.view(first - 1, first + kRun);
        const double* p = run.pressure_cmH2O.data();
        int strange = 0;
        for (std::size_t i = 1; i <= kRun; ++i) {
            strange |= static_cast<int>(!(p[i] > low)) | static_cast<int>(!(p[i] < high)) |
                       static_cast<int>(!(std::abs(p[i] - p[i - 1]) <= spike_floor_));
        }
        return strange == 0;
    }

    bool take_spike(std::size_t index)
    {
        if (!can_be_spike(index)) {
            return false;
        }
        const std::size_t first = index - std::min(index - buffer_.begin(), kSpikeReach);
        const std::size_t last = std::min(buffer_.end(), index + kSpikeReach + 1);
        if (!is_spike(buffer_.view(first, last).pressure_cmH2O, index - first, spike_floor_)) {
            return false;
        }
        pipeline_.add_spike(buffer_.number_given(index));
        buffer_.remove(index);
        return true;
    }

    void take_sample(std::size_t index)
    {
        if (live_) {
            learn(index);
        }
        if (const auto ended = recognizer_.step(index, buffer_.time(index), buffer_.pressure(index))) {
            hand_on(*ended, false);
        }
    }

    [[nodiscard]] bool can_be_spike(std::size_t index) const
    {
        if (index == buffer_.begin() || index + 1 >= buffer_.end()) {
            return true;
        }
        return std::abs(buffer_.pressure(index) - buffer_.pressure(index - 1)) > spike_floor_;
    }

    void hand_on(const Dwell& dwell, bool ends_trace)
    {
        if (!ends_trace && only_passed(dwell)) {
            return;
        }
        pipeline_.add(dwell, !before_, ends_trace, buffer_);
        before_ = dwell;
    }

    [[nodiscard]] bool only_passed(const Dwell& dwell) const
    {
        const Zone next = recognizer_.under_way()->zone;
        if (dwell.zone != 0 || !before_ || before_->zone * next >= 0 ||
            buffer_.time(dwell.last - 1) - buffer_.time(dwell.first) > kSurelyPause_s) {
            return false;
        }
        const std::size_t reach = dwell.last - dwell.first;
        const std::size_t from = std::max(before_->first, dwell.first - std::min(dwell.first, reach));
        return passes_through(buffer_.view(std::max(from, buffer_.begin()), dwell.first),
                              buffer_.view(dwell.first, dwell.last), buffer_.view(dwell.last, seen_ + 1));
    }

    // Live: what the trace's larger plateau and noise will be is not known yet; what has been held so far is.
    void learn(std::size_t index)
    {
        const double time = buffer_.time(index);
        if (index < 2 || time < next_probe_s_) {
            return;
        }
        next_probe_s_ = time + 0.02;
        const Samples three = buffer_.view(index - 2, index + 1);
        const auto middle = median({three.pressure_cmH2O.begin(), three.pressure_cmH2O.end()});
        const auto& p = three.pressure_cmH2O;
        bends_[probes_ % bends_.size()] = std::abs(p[0] - 2.0 * p[1] + p[2]);
        held_[probes_ % held_.size()] = *middle;
        ++probes_;
        if (probes_ < bends_.size()) {
            return;
        }
        if (probes_ == bends_.size() && options_.noise_cmH2O <= 0.0) {
            options_.noise_cmH2O = *median({bends_.begin(), bends_.end()}) / (0.6745 * std::sqrt(6.0));
            pipeline_.set_noise(options_.noise_cmH2O);
            spike_floor_ = floor_of_spikes();
        }
        const auto [low, high] = std::minmax_element(held_.begin(), held_.end());
        const double held = std::max(*low, -*high);
        if (held > options_.larger_plateau_cmH2O) {
            options_.larger_plateau_cmH2O = held;
            spike_floor_ = floor_of_spikes();
            recognizer_.set_bounds(bounds());
        }
    }

    static constexpr double kFar = std::numeric_limits<double>::infinity();

    MeasureOptions options_;
    Recognizer recognizer_;
    Pipeline pipeline_;
    SampleBuffer buffer_;
    double spike_floor_ = 0.0;
    bool live_ = false;
    bool finished_ = false;
    std::size_t seen_ = 0;
    std::optional<Dwell> before_;

    double next_probe_s_ = -std::numeric_limits<double>::infinity();
    std::size_t probes_ = 0;
    std::array<double, 50> bends_{};
    std::array<double, 11> held_{};
};

PhaseStream::PhaseStream(MeasureOptions options) : state_(std::make_unique<State>(options)) {}
PhaseStream::~PhaseStream() = default;
PhaseStream::PhaseStream(PhaseStream&&) noexcept = default;
PhaseStream& PhaseStream::operator=(PhaseStream&&) noexcept = default;

void PhaseStream::push(Samples block) { state_->push(block); }
void PhaseStream::finish() { state_->finish(); }
std::vector<Phase> PhaseStream::take() { return state_->take(); }
std::optional<PhaseKind> PhaseStream::now() const { return state_->now(); }

namespace {

std::vector<Phase> streamed(Samples samples, const MeasureOptions& options)
{
    PhaseStream stream(options);
    stream.push(samples);
    stream.finish();
    return stream.take();
}

// Mean frequency of all phases that show an oscillation, the longer ones weighing more; none where no phase is in need
// of it (two periods between 30 and 90 % are enough), or where the phases disagree.
std::optional<SharedOscillation> pooled_oscillation(const std::vector<Phase>& phases)
{
    constexpr double kEnoughPeriods = 2.0;
    constexpr double kAgree = 0.1;
    double weights = 0.0;
    SharedOscillation sum;
    bool in_need = false;
    std::vector<double> frequencies;
    for (const Phase& phase : phases) {
        const auto length_s = phase.duration_s();
        if (!phase.oscillation || phase.oscillation->amplitude_cmH2O <= 0.0 || !length_s) {
            continue;
        }
        const double periods = 0.6 * *length_s * phase.oscillation->frequency_hz;
        const double weight = periods * periods * *length_s;
        in_need = in_need || periods < kEnoughPeriods;
        frequencies.push_back(phase.oscillation->frequency_hz);
        weights += weight;
        sum.frequency_hz += weight * phase.oscillation->frequency_hz;
        sum.frequency_u_hz = std::hypot(sum.frequency_u_hz, weight * phase.oscillation->frequency_u_hz);
    }
    if (!in_need || frequencies.size() < 2) {
        return std::nullopt;
    }
    const SharedOscillation pooled{sum.frequency_hz / weights, sum.frequency_u_hz / weights};
    const auto [low, high] = std::minmax_element(frequencies.begin(), frequencies.end());
    return *high - *low < kAgree * pooled.frequency_hz ? std::optional<SharedOscillation>(pooled) : std::nullopt;
}

// Whether what looks like a slow oscillation in some phases is none: fewer than half of the phases of that kind show
// it, or they do not agree on its frequency.
bool moves_by_chance(const std::vector<Phase>& phases, PhaseKind kind)
{
    constexpr double kFewPeriods = 4.0;
    constexpr double kAgree = 0.15;
    std::vector<double> slow;
    std::size_t whole = 0;
    for (const Phase& phase : phases) {
        if (phase.kind != kind || phase.cut()) {
            continue;
        }
        ++whole;
        if (phase.oscillation && phase.oscillation->amplitude_cmH2O > 0.0 &&
            0.6 * *phase.duration_s() * phase.oscillation->frequency_hz < kFewPeriods) {
            slow.push_back(phase.oscillation->frequency_hz);
        }
    }
    if (slow.empty() || whole < 3) {
        return false;
    }
    const double middle = *median(slow);
    const auto agreeing = std::count_if(slow.begin(), slow.end(), [middle](double frequency_hz) {
        return std::abs(frequency_hz - middle) < kAgree * middle;
    });
    return 2 * static_cast<std::size_t>(agreeing) < whole;
}

// A slow oscillation that some phase does not show, but all of them together do.
std::optional<SharedOscillation> shared_oscillation(const std::vector<Phase>& phases, Samples samples,
                                                    const MeasureOptions& options)
{
    constexpr std::size_t kEnoughPhases = 24;
    constexpr double kFewPeriods = 2.0;
    std::vector<Interval> wanted;
    bool in_need = false;
    for (const Phase& phase : phases) {
        if (phase.kind != PhaseKind::pause && !phase.cut() && wanted.size() < kEnoughPhases) {
            const Interval part = Interval{phase.start_s(), phase.start_s() + *phase.duration_s()}.part(0.3, 0.9);
            const double hz = phase.oscillation ? phase.oscillation->frequency_hz : 0.0;
            in_need = in_need || part.length_s() * hz < kFewPeriods;
            wanted.push_back(part);
        }
    }
    if (!in_need) {
        return std::nullopt;
    }
    std::vector<OwnedSamples> clear;
    for (const Interval& part : wanted) {
        const SampleWindow bounds = samples_between(samples, part.from_s, part.to_s);
        clear.push_back(without_spikes(samples.part(bounds.first, bounds.last)));
        if (clear.back().size() < 8) {
            return std::nullopt;
        }
    }
    return find_shared_oscillation(clear, options.noise_cmH2O, options.oscillation_hz);
}

// The largest oscillation of a trace in which samples were taken for spikes; 0 where none were.
double oscillation_beside_spikes(const std::vector<Phase>& phases)
{
    double largest = 0.0;
    std::size_t spikes = 0;
    for (const Phase& phase : phases) {
        largest = phase.oscillation ? std::max(largest, phase.oscillation->amplitude_cmH2O) : largest;
        spikes += phase.spikes;
    }
    return spikes > 0 ? largest : 0.0;
}

// A fast oscillation looks like noise from sample to sample. What is left about the levels once it is taken off does
// not; the quieter half of the phases tells.
std::optional<double> noise_beside_oscillation(const std::vector<Phase>& phases)
{
    std::vector<double> ripples;
    bool oscillates = false;
    for (const Phase& phase : phases) {
        oscillates = oscillates || (phase.oscillation && phase.oscillation->amplitude_cmH2O > 0.0);
        if (phase.ripple_cmH2O && phase.plateau->samples > 10) {
            ripples.push_back(*phase.ripple_cmH2O);
        }
    }
    if (!oscillates || ripples.empty()) {
        return std::nullopt;
    }
    std::sort(ripples.begin(), ripples.end());
    return ripples[ripples.size() / 4];
}

} // namespace

std::vector<Phase> measure(Samples samples, MeasureOptions options)
{
    const Scouted scouted = scout(samples, options.pause_level_cmH2O);
    if (options.larger_plateau_cmH2O <= 0.0) {
        options.larger_plateau_cmH2O = scouted.larger_plateau_cmH2O;
    }
    if (options.larger_plateau_cmH2O <= 0.0) {
        return {};
    }
    const bool noise_known = options.noise_cmH2O > 0.0;
    if (!noise_known) {
        options.noise_cmH2O = scouted.noise_cmH2O;
    }
    options.rest_cmH2O = options.rest_cmH2O.value_or(scouted.rest_cmH2O);
    std::vector<Phase> phases = streamed(samples, options);
    const auto quieter = noise_known ? std::nullopt : noise_beside_oscillation(phases);
    if (quieter && *quieter < kClearlyQuieter * options.noise_cmH2O) {
        options.noise_cmH2O = *quieter;
        phases = streamed(samples, options);
    }
    options.oscillation_cmH2O = oscillation_beside_spikes(phases);
    if (options.oscillation_cmH2O > 0.0) {
        phases = streamed(samples, options);
    }
    const auto shared = options.oscillation_hz ? std::nullopt : shared_oscillation(phases, samples, options);
    if (!shared && !options.expected_oscillation_hz &&
        (moves_by_chance(phases, PhaseKind::insufflation) || moves_by_chance(phases, PhaseKind::exsufflation))) {
        options.fewest_oscillation_periods = kEnoughForOnePhase;
        phases = streamed(samples, options);
    }
    auto known = options.oscillation_hz || shared ? shared : pooled_oscillation(phases);
    for (int round = 0; known && round < kMostRounds; ++round) {
        options.oscillation_hz = known->frequency_hz;
        options.oscillation_u_hz = known->frequency_u_hz;
        phases = streamed(samples, options);
        // With it taken off the phases begin and end elsewhere: a slow one is then better known.
        known = shared_oscillation(phases, samples, options);
        if (known &&
            std::abs(known->frequency_hz - *options.oscillation_hz) < kSameFrequency * *options.oscillation_hz) {
            break;
        }
    }
    return phases;
}

} // namespace zeroline::signal
