#include "analysis/verification/findings/every_finding.hpp"

#include "analysis/signal/statistics.hpp"
#include "analysis/verification/findings/wording.hpp"

#include <algorithm>
#include <charconv>
#include <string_view>

namespace zeroline::verification {

namespace {

constexpr std::size_t kSpikesOfANote = 3;
constexpr double kBatchIntervals = 1.5; // shorter bunches than this are single readings
constexpr std::size_t kSamplesInAnEdge = 3;

std::int64_t lost_in(const std::vector<Hole>& holes)
{
    std::int64_t lost = 0;
    for (const auto& hole : holes)
        lost += hole.lost;
    return lost;
}

double missing_s(const FindingBasis& basis)
{
    double missing = 0.0;
    for (const auto& hole : basis.holes)
        missing += hole.to_s - hole.from_s - median_interval_s(basis.measured_trace);
    return missing;
}

bool was_unplugged(const trace::Trace& trace)
{
    return std::any_of(trace.events.begin(), trace.events.end(),
                       [](const auto& event) { return event.kind == trace::NoteKind::lost; });
}

/// Bytes of an event "discarded 12 bytes"; none of another event.
std::optional<double> discarded_in(const trace::Event& event)
{
    constexpr std::string_view kDiscarded = "discarded ";
    if (event.kind == trace::NoteKind::checksum || event.kind == trace::NoteKind::not_a_number)
        return 0.0;
    if (event.kind != trace::NoteKind::other || event.text.rfind(kDiscarded, 0) != 0)
        return std::nullopt;
    double bytes = 0.0;
    std::from_chars(event.text.data() + kDiscarded.size(), event.text.data() + event.text.size(), bytes);
    return bytes;
}

/// Median number of samples between the 10 % and the 90 % point of the transitions into one kind of phase.
std::optional<double> samples_in_edges(const Group& group, signal::PhaseKind kind)
{
    std::vector<double> counts;
    for (const auto* cycle : group.whole)
        if (const auto& phase = phase_of(*cycle, kind); phase && phase->entering)
            counts.push_back(static_cast<double>(phase->entering->samples_10_90));
    return signal::median(std::move(counts));
}

} // namespace

Findings gap(const FindingBasis& basis)
{
    const bool unplugged = was_unplugged(*basis.measured_trace.evidence->trace);
    const auto lost = lost_in(basis.holes);
    if (basis.holes.empty() && !unplugged)
        return {};
    const bool matters =
        unplugged || std::any_of(basis.holes.begin(), basis.holes.end(), [](const auto& h) { return h.matters; });
    auto found =
        finding("gap", matters ? Severity::caution : Severity::note,
                {unplugged ? "a sensor that was unplugged" : "readings that got lost on the way",
                 unplugged ? "the line to it was lost"
                           : in_words(missing_s(basis)) + " s are missing in " + counted(basis.holes.size(), "place"),
                 std::string("another cable or port, and nothing else busy on this computer") +
                     (matters ? "; a cycle that lost part of itself is left out, and one more is needed for it" : "")});
    for (const auto& hole : basis.holes)
        if (hole.matters) {
            found.times_s.push_back(hole.from_s);
            name_cycles(found, basis.cycles_between(hole.from_s, hole.to_s));
        }
    found.figures = {{"lost_readings", static_cast<double>(lost)}, {"missing_s", missing_s(basis)}};
    return {found};
}

Findings spikes(const FindingBasis& basis)
{
    std::size_t count = 0;
    std::vector<const Cycle*> where;
    for (const auto& cycle : basis.measured_trace.cycles)
        for (const auto kind : {kInsufflation, kExsufflation, kPause})
            if (const auto& phase = phase_of(cycle, kind); phase && phase->spikes > 0)
                where.push_back(&cycle);
    for (const auto& span : basis.measured_trace.spans)
        for (const auto& phase : span.phases)
            count += phase.spikes;
    if (count == 0)
        return {};
    auto found =
        finding("spikes", count <= kSpikesOfANote ? Severity::note : Severity::caution,
                {"electrical disturbance", counted(count, "single reading") + " jumped and came back at once",
                 "a shielded cable, another supply, and mobile phones kept away; such readings are left out of "
                 "everything"});
    found.figures = {{"count", static_cast<double>(count)}};
    name_cycles(found, where);
    return {found};
}

Findings discarded_bytes(const FindingBasis& basis)
{
    double bytes = 0.0;
    std::vector<double> times;
    for (const auto& event : basis.measured_trace.evidence->trace->events)
        if (const auto discarded = discarded_in(event)) {
            bytes += *discarded;
            times.push_back(event.time_s);
        }
    if (times.empty())
        return {};
    auto found = finding("discarded-bytes", Severity::caution,
                         {"damage on the serial line",
                          counted(times.size(), "sequence") + " of bytes could not be read as readings",
                          "the baud rate, parity and cable; what could not be read is never guessed"});
    found.times_s = times;
    found.figures = {{"bytes", bytes}, {"places", static_cast<double>(times.size())}};
    return {found};
}

Findings batched(const FindingBasis& basis)
{
    const auto& sampling = basis.measured_trace.evidence->trace->sampling;
    if (!sampling.batch_period_s ||
        *sampling.batch_period_s < kBatchIntervals * median_interval_s(basis.measured_trace))
        return {};
    auto found =
        finding("batched", Severity::note,
                {"an adapter that delivers readings in bunches",
                 "they arrive every " + in_words(1e3 * *sampling.batch_period_s, 1) + " ms, several at once",
                 "a shorter latency setting of the USB adapter, if times matter live; the sample times of the record "
                 "are fitted and not affected"});
    found.figures = {{"period_s", *sampling.batch_period_s}};
    return {found};
}

Findings undersampled(const FindingBasis& basis)
{
    for (const auto& group : basis.groups)
        for (const auto kind : {kInsufflation, kExsufflation, kPause}) {
            const auto samples = samples_in_edges(group, kind);
            if (!samples || *samples >= static_cast<double>(kSamplesInAnEdge))
                continue;
            const double rate = basis.measured_trace.evidence->trace->sampling.rate_hz;
            auto found = finding(
                "undersampled", Severity::caution,
                {"an instrument too slow for this unit's edges",
                 "only " + in_words(*samples, 0) + " readings fall into a transition at " + in_words(rate, 0) + " Hz",
                 "a faster rate; times are then surer and edges can be judged"});
            found.figures = {{"samples", *samples}, {"rate_hz", rate}};
            return {found};
        }
    return {};
}

} // namespace zeroline::verification
