#include "gui/console/verify_options.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/console/local_time.hpp"
#include "gui/console/typed_values.hpp"
#include "gui/records/earlier.hpp"
#include "gui/session/checklist.hpp"
#include "gui/session/first_strength.hpp"
#include "gui/session/instrument_state.hpp"

#include <algorithm>
#include <filesystem>
#include <utility>

namespace zeroline::console {

using trace::InputError;

namespace {

constexpr int kMostAttempts = 1000;

void refuse_what_nobody_answers(const VerifyOptions& options, bool can_ask)
{
    std::error_code none;
    if (!std::filesystem::exists(options.port, none)) {
        throw InputError(options.port, "no such port", "one that 'zeroline ports' lists");
    }
    if (options.yes && !serial::is_pseudo_terminal(options.port)) {
        throw InputError("--yes", options.port + " is no pseudo-terminal",
                         "a person who confirms each step at a real instrument");
    }
    if (!options.yes && !can_ask) {
        throw InputError("verify", "standard input is no terminal, so nobody can be asked",
                         "a terminal, or --yes on the virtual bench");
    }
    if (!options.panel.empty() && !serial::is_pseudo_terminal(options.port)) {
        throw InputError("--panel", options.port + " is no pseudo-terminal",
                         "a person who reads the panel of a real unit");
    }
}

std::vector<verification::Displayed> read_displayed(const VerifyOptions& options, const verification::WorkOrder& order)
{
    std::vector<verification::Displayed> all;
    for (const auto& text : options.displayed) {
        auto one = displayed_typed(text, order);
        const bool twice =
            std::any_of(all.begin(), all.end(), [&](const auto& other) { return other.preset == one.preset; });
        if (twice) {
            throw InputError("--displayed", "preset '" + one.preset + "' stands twice", "each preset once");
        }
        all.push_back(std::move(one));
    }
    return all;
}

int attempt_typed(const VerifyOptions& options, const std::vector<records::KeptAttempt>& earlier)
{
    const int next = earlier.empty() ? 1 : earlier.back().attempt.number + 1;
    if (options.attempt.empty()) {
        return next;
    }
    const int number = whole_number_typed(options.attempt, "--attempt", 1, kMostAttempts);
    for (const auto& one : earlier) {
        if (one.attempt.number == number) {
            throw InputError("--attempt", std::to_string(number) + " is kept already in " + one.folder.string(),
                             std::to_string(next) + ", which it is without --attempt");
        }
    }
    return number;
}

std::optional<verification::Replaces> replaces_typed(const VerifyOptions& options, int attempt)
{
    if (options.replaces.empty() && options.cause.empty() && options.evidence.empty()) {
        return std::nullopt;
    }
    if (options.replaces.empty() || options.cause.empty() || options.evidence.empty()) {
        throw InputError("--replaces", "an attempt, a cause or its evidence is missing",
                         "--replaces N, --cause zero, plug, hose or instrument, and --evidence TEXT together");
    }
    const int replaced = whole_number_typed(options.replaces, "--replaces", 1, kMostAttempts);
    if (replaced >= attempt) {
        throw InputError("--replaces", std::to_string(replaced),
                         "an attempt before this one, which is number " + std::to_string(attempt));
    }
    return verification::Replaces{replaced, options.cause, options.evidence};
}

void read_attempts(const VerifyOptions& options, const std::optional<std::filesystem::path>& bench, RunInputs& inputs)
{
    const auto& order = inputs.order.meaning;
    records::KeptAttempt one;
    one.folder = options.out;
    one.work_order = order.work_order;
    one.asset = order.unit.asset;
    one.simulated = serial::is_pseudo_terminal(options.port);
    const auto known = records::own_keys(records::key_file(bench));
    inputs.earlier = records::attempts_before(one, options.as_found(), &known);
    inputs.attempt = attempt_typed(options, inputs.earlier);
    inputs.replaces = replaces_typed(options, inputs.attempt);
}

/// An answer that was given with --check stands.
void read_instrument_state(const VerifyOptions& options, RunInputs& inputs)
{
    auto state = session::instrument_state(options.instrument, local_day(), serial::is_pseudo_terminal(options.port));
    session::note_instrument(inputs.checklist, state);
    inputs.instrument_caution = std::move(state.caution);
}

} // namespace

std::optional<records::AsFound> VerifyOptions::as_found() const
{
    if (as_found_folder.empty() && done_between.empty()) {
        return std::nullopt;
    }
    if (as_found_folder.empty()) {
        throw InputError("--done", "no record says what the unit was like before", "--as-found FOLDER beside it");
    }
    return records::AsFound{as_found_folder, done_between};
}

const verification::HouseProfile& RunInputs::house() const
{
    static const auto standard = verification::HouseProfile::standard();
    return bench ? bench->meaning.house : standard;
}

verification::Duty RunInputs::duty() const { return bench ? bench->meaning.duty : verification::Duty{}; }

RunInputs read_inputs(const VerifyOptions& options, const std::optional<std::filesystem::path>& bench, bool can_ask)
{
    RunInputs inputs;
    inputs.order = records::load_work_order(options.order);
    inputs.instrument = records::load_instrument(options.instrument);
    if (bench) {
        inputs.bench = records::load_bench(*bench);
    }
    inputs.procedure = records::procedure_of_run(options.procedure, bench, inputs.order.meaning.occasion);
    inputs.displayed = read_displayed(options, inputs.order.meaning);
    inputs.environment = environment_typed(options.environment);
    for (const auto& check : options.checks) {
        session::note_item(inputs.checklist, checklist_typed(check, "--check"));
    }
    read_instrument_state(options, inputs);
    if (!options.first_strength.empty()) {
        inputs.first_strength = session::first_strength_in(options.first_strength, inputs.order.meaning.unit.asset);
    }
    inputs.wait_s = options.wait_s();
    read_attempts(options, bench, inputs);
    refuse_what_nobody_answers(options, can_ask);
    if (!options.panel.empty()) {
        static_cast<void>(records::load_panel(options.panel, inputs.order.meaning));
    }
    return inputs;
}

} // namespace zeroline::console
