#include "analysis/verification/cycles.hpp"

#include <algorithm>

namespace zeroline::verification {

namespace {

using signal::Phase;
using signal::PhaseKind;

PhaseKind kind_of(Step step)
{
    switch (step) {
    case Step::insufflation:
        return PhaseKind::insufflation;
    case Step::exsufflation:
        return PhaseKind::exsufflation;
    case Step::pause:
        break;
    }
    return PhaseKind::pause;
}

PhaseKind other(PhaseKind kind)
{
    return kind == PhaseKind::insufflation ? PhaseKind::exsufflation : PhaseKind::insufflation;
}

/// What the preset's sequence asks of the pairing.
struct Order {
    PhaseKind first = PhaseKind::insufflation; ///< of a pair
    bool zero_between = false;                 ///< a pause is prescribed between the two halves
    bool pause_after = true;                   ///< a pause is prescribed after the pair
    int extra_first = 0;                       ///< further phases of either kind that have no partner by design
    int extra_second = 0;
};

/// The position in the sequence where a pair begins: the first phase directly followed by the other kind, else the
/// first phase at all (its partner then comes after a pause).
std::size_t pair_position(const std::vector<Step>& sequence)
{
    const auto is_phase = [&](std::size_t i) { return sequence[i] != Step::pause; };
    for (std::size_t i = 0; i + 1 < sequence.size(); ++i) {
        if (is_phase(i) && is_phase(i + 1) && sequence[i] != sequence[i + 1]) {
            return i;
        }
    }
    std::size_t i = 0;
    while (!is_phase(i)) {
        ++i;
    }
    return i;
}

Order order_of(const Preset& preset)
{
    const auto& sequence = preset.sequence;
    const auto begins = pair_position(sequence);
    Order order;
    order.first = kind_of(sequence[begins]);
    std::size_t partner = begins + 1;
    while (partner < sequence.size() && sequence[partner] == Step::pause) {
        ++partner;
    }
    const bool pauses = preset.pause.duration_s > 0.0;
    order.zero_between = pauses && partner != begins + 1;
    // The sequence repeats: "a rest at zero before" the pair is a pause after the pair before.
    order.pause_after = pauses && sequence[(partner + 1) % sequence.size()] == Step::pause;
    const auto count = [&](PhaseKind kind) {
        return static_cast<int>(
            std::count_if(sequence.begin(), sequence.end(), [&](Step step) { return kind_of(step) == kind; }));
    };
    order.extra_first = count(order.first) - 1;
    order.extra_second = count(other(order.first)) - 1;
    return order;
}

/// Votes of the runs of phases between pauses on which kind comes first.
struct Votes {
    int as_ordered = 0;
    int reversed = 0;
    void cast(PhaseKind begins, PhaseKind first) { ++(begins == first ? as_ordered : reversed); }
};

/// Runs of whole pairs decide; a run with a phase left over fits both ways, so it is heard only where there is no
/// other.
bool is_reversed(const std::vector<Phase>& phases, PhaseKind first)
{
    Votes whole;
    Votes rest;
    for (std::size_t i = 0; i < phases.size();) {
        std::size_t end = i;
        while (end < phases.size() && phases[end].kind != PhaseKind::pause) {
            ++end;
        }
        const std::size_t seen = end - i - (end > i && phases[end - 1].cut_end ? 1 : 0);
        if (end > i && seen >= 2 && !phases[i].cut_begin) {
            (seen % 2 == 0 ? whole : rest).cast(phases[i].kind, first);
        }
        i = end + 1;
    }
    const bool decided = whole.as_ordered + whole.reversed > 0;
    const auto& votes = decided ? whole : rest;
    return votes.reversed > votes.as_ordered;
}

/// Walks through the phases of a span and takes pair after pair off their front.
class Pairer {
public:
    Pairer(const std::vector<Phase>& phases, const Preset& preset, const Order& order, bool automatic)
        : phases_(phases), preset_(preset), order_(order), automatic_(automatic)
    {
    }

    std::vector<Pair> all()
    {
        std::vector<Pair> pairs;
        while (at_ < phases_.size()) {
            if (phases_[at_].kind == PhaseKind::pause) {
                ++at_;
            } else {
                pairs.push_back(next());
                hand_pause_back(pairs);
            }
        }
        return pairs;
    }

private:
    Pair next()
    {
        Pair pair;
        const auto begins = at_;
        put(pair, at_++);
        if (phases_[begins].kind == order_.first) {
            take_partner(pair);
        }
        take_pause(pair);
        if (automatic_) {
            note_lack(pair, begins);
        }
        return pair;
    }

    void put(Pair& pair, std::size_t i) const
    {
        (phases_[i].kind == PhaseKind::insufflation ? pair.insufflation : pair.exsufflation) = i;
    }

    void take_partner(Pair& pair)
    {
        auto partner = at_;
        if (order_.zero_between && partner < phases_.size() && phases_[partner].kind == PhaseKind::pause) {
            ++partner;
        }
        if (partner < phases_.size() && phases_[partner].kind == other(order_.first)) {
            put(pair, partner);
            at_ = partner + 1;
        }
    }

    void take_pause(Pair& pair)
    {
        if (at_ < phases_.size() && phases_[at_].kind == PhaseKind::pause) {
            pair.pause = at_++;
        } else if (automatic_ && at_ < phases_.size() && order_.pause_after && !pair.half()) {
            pair.lacks_pause = true;
        }
    }

    /// A closing phase stands between a pair and its pause: the pause is still the pair's.
    static void hand_pause_back(std::vector<Pair>& pairs)
    {
        auto& last = pairs.back();
        if (pairs.size() > 1 && last.spare && last.pause && !pairs[pairs.size() - 2].pause) {
            std::swap(pairs[pairs.size() - 2].pause, last.pause);
        }
    }

    /// A last phase that is shorter than it is set to was stopped by a hand: its partner is cut, not missing.
    [[nodiscard]] bool stopped(std::size_t i) const
    {
        constexpr double kStoppedBelow = 0.9;
        const auto duration = phases_[i].duration_s();
        const double set_s = phases_[i].kind == PhaseKind::insufflation ? preset_.insufflation.duration_s
                                                                        : preset_.exsufflation.duration_s;
        return !duration || *duration < kStoppedBelow * set_s;
    }

    void note_lack(Pair& pair, std::size_t begins)
    {
        if (!pair.half()) {
            spare_first_ = order_.extra_first;
            spare_second_ = order_.extra_second;
            return;
        }
        const bool is_first = phases_[begins].kind == order_.first;
        int& spare = is_first ? spare_first_ : spare_second_;
        if (spare > 0) {
            --spare;
            pair.spare = true;
            return;
        }
        // What lies beyond the span's ends was not seen: it is cut, not missing.
        const bool beyond_end = is_first && at_ >= phases_.size() && stopped(begins);
        const bool beyond_begin = !is_first && (begins == 0 || phases_[begins].cut_begin);
        if (!beyond_end && !beyond_begin) {
            pair.lacks = other(phases_[begins].kind);
        }
    }

    const std::vector<Phase>& phases_;
    const Preset& preset_;
    Order order_;
    bool automatic_;
    std::size_t at_ = 0;
    int spare_first_ = order_.extra_first;
    int spare_second_ = order_.extra_second;
};

/// A pause nearer to the rest than to the prescribed pause.
bool long_as_a_rest(const Phase& pause, const Preset& preset)
{
    const auto duration = pause.duration_s();
    return duration && *duration > (preset.pause.duration_s + preset.series->rest_s) / 2.0;
}

/// Where the span begins inside a phase, how many breaths of the first series it does not show is not known: its rest
/// is told by its length.
void mark_rests(std::vector<Pair>& pairs, const std::vector<Phase>& phases, const Preset& preset)
{
    const int breaths = preset.series->breaths;
    int since = 0;
    bool begins_within = false;
    for (auto& pair : pairs) {
        const auto begins =
            std::min(pair.insufflation.value_or(phases.size()), pair.exsufflation.value_or(phases.size()));
        const bool cut = phases[begins].cut_begin;
        begins_within = begins_within || cut;
        since += cut ? 0 : 1;
        if (!pair.pause) {
            continue;
        }
        const bool early = begins_within && since < breaths && long_as_a_rest(phases[*pair.pause], preset);
        if (early || (since == breaths && !cut)) {
            pair.rest_follows = true;
            since = 0;
            begins_within = false;
        }
    }
}

} // namespace

Pairing pair_cycles(const std::vector<Phase>& phases, const Preset& preset, SpanKind what)
{
    auto order = order_of(preset);
    const bool automatic = what != SpanKind::manual;
    Pairing pairing;
    pairing.reversed = automatic && is_reversed(phases, order.first);
    if (pairing.reversed) {
        order.first = other(order.first);
        std::swap(order.extra_first, order.extra_second);
    }
    pairing.pairs = Pairer(phases, preset, order, automatic).all();
    if (automatic && preset.series) {
        mark_rests(pairing.pairs, phases, preset);
    }
    return pairing;
}

} // namespace zeroline::verification
