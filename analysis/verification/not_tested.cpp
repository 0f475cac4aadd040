#include "analysis/verification/not_tested.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace zeroline::verification {

namespace {

/// What a closed hose end cannot show, and the checklist items that show it.
struct Beyond {
    const char* word;
    std::array<const char*, 3> items;
};

constexpr Beyond kBeyond[] = {
    {"flow", {"flow", "flow and strength", "strength under flow"}},
    {"strength-under-flow", {"strength", "strength under flow", "flow and strength"}},
    {"alarms", {"alarms", "alarm", "alarm on opening the plug"}},
    {"filters", {"filters", "filter", "intake filter"}},
    {"battery-duration", {"battery duration", "battery-duration", "battery"}},
    {"electrical-safety", {"electrical safety", "electrical-safety", "electrical safety values"}},
    {"mask-and-hose-in-use", {"mask and hose in use", "mask-and-hose-in-use", "interface"}},
};

/// Both phases were seen with air flowing out through an orifice.
bool seen_under_flow(const MeasuredTrace& measured_trace, const std::string& word)
{
    const auto has = [&](const char* phase) {
        return std::any_of(measured_trace.strength.begin(), measured_trace.strength.end(),
                           [&](const Strength& one) { return one.phase == phase; });
    };
    return (word == "flow" || word == "strength-under-flow") && has("insufflation") && has("exsufflation");
}

bool done(const RunLog* run, const Beyond& beyond)
{
    return run != nullptr && std::any_of(run->checklist.begin(), run->checklist.end(), [&](const ChecklistItem& item) {
               return item.outcome != ChecklistItem::Outcome::not_applicable &&
                      std::find(beyond.items.begin(), beyond.items.end(), item.item) != beyond.items.end();
           });
}

bool signs_seen(const MeasuredTrace& measured_trace)
{
    return std::any_of(measured_trace.spans.begin(), measured_trace.spans.end(), [](const MeasuredSpan& measured) {
        const auto phases = std::count_if(measured.phases.begin(), measured.phases.end(),
                                          [](const signal::Phase& p) { return p.kind != signal::PhaseKind::pause; });
        return measured.span.what == SpanKind::manual && !measured.span.asked.empty() &&
               static_cast<std::size_t>(phases) == measured.span.asked.size();
    });
}

bool displays_read(const Evidence& evidence)
{
    if (evidence.run == nullptr || !evidence.run->displayed) {
        return false;
    }
    const auto read = [&](const Preset& preset) {
        const auto& all = *evidence.run->displayed;
        return std::any_of(all.begin(), all.end(), [&](const Displayed& d) {
            const bool judged = d.shows == Shows::live || d.shows == Shows::cycle_peak;
            return d.preset == preset.name && judged && d.insufflation_cmH2O && d.exsufflation_cmH2O;
        });
    };
    return std::all_of(evidence.order->presets.begin(), evidence.order->presets.end(), read);
}

/// A step that was left out, each kind once; the reasons stand with the other reasons.
void append_skipped(const RunLog* run, std::vector<std::string>& words)
{
    for (const auto& [what, word] : {std::pair{SpanKind::zero_before, "zero-before"},
                                     {SpanKind::manual, "manual-holds"},
                                     {SpanKind::automatic, "automatic-cycles"},
                                     {SpanKind::leak_test, "leak-test"},
                                     {SpanKind::zero_after, "zero-after"}}) {
        const auto is_it = [kind = what](const Skipped& skipped) { return skipped.what == kind; };
        if (run != nullptr && std::any_of(run->skipped.begin(), run->skipped.end(), is_it)) {
            words.emplace_back(word);
        }
    }
}

} // namespace

std::vector<std::string> not_tested(const MeasuredTrace& measured_trace)
{
    const auto& evidence = *measured_trace.evidence;
    std::vector<std::string> words;
    for (const auto& beyond : kBeyond) {
        if (!done(evidence.run, beyond) && !seen_under_flow(measured_trace, beyond.word)) {
            words.emplace_back(beyond.word);
        }
    }
    if (!signs_seen(measured_trace)) {
        words.emplace_back("signs");
    }
    if (!displays_read(evidence)) {
        words.emplace_back("displays");
    }
    if (evidence.run == nullptr || !evidence.run->restored) {
        words.emplace_back("hand-back");
    }
    append_skipped(evidence.run, words);
    return words;
}

} // namespace zeroline::verification
