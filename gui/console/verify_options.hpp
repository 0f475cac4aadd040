#pragma once

#include "gui/console/line_options.hpp"
#include "gui/console/signing.hpp"
#include "gui/records/attempts.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/panel_file.hpp"
#include "gui/records/procedure_file.hpp"
#include "gui/records/signing_key.hpp"
#include "gui/register/delivery.hpp"
#include "gui/session/simulated_bench.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace zeroline::console {

/// `verify` as typed.
struct VerifyOptions : LineOptions {
    std::string order, procedure, out, panel, run_operator, place, environment;
    std::string attempt, replaces, cause, evidence;
    std::vector<std::string> displayed, checks;
    SigningOptions signing;
    DispositionOptions disposition;
    std::string as_found_folder, done_between, first_strength;
    bool yes = false;

    [[nodiscard]] std::optional<records::AsFound> as_found() const;
};

/// What a run is made with, read and checked before anything is opened.
struct RunInputs {
    records::Read<verification::WorkOrder> order;
    records::Read<trace::Instrument> instrument;
    std::optional<records::Read<verification::Bench>> bench;
    unit_register::Bench registering;                                ///< where its records go
    std::optional<records::Read<verification::Procedure>> procedure; ///< none: the guided run
    std::vector<verification::Displayed> displayed;
    verification::Environment environment;
    std::vector<verification::ChecklistItem> checklist;
    std::optional<records::SigningKey> key;            ///< of the bench: signs the journal while it captures
    std::shared_ptr<session::SimulatedBench> practice; ///< goes along with the run; none: it is no practice
    double wait_s = 60.0;
    int attempt = 1;
    std::optional<verification::Replaces> replaces;
    std::optional<verification::FirstStrength> first_strength; ///< as told; none: looked for in the register
    std::string instrument_caution;            ///< its check against a second gauge: missing, overdue, not in order
    std::vector<records::KeptAttempt> earlier; ///< attempts that this one is counted with, beside the new record

    [[nodiscard]] const verification::HouseProfile& house() const;
    [[nodiscard]] verification::Duty duty() const;
};

/// Throws trace::InputError: unreadable input, `--yes` on a real port, questions with nobody to answer them, an attempt
/// that was made already.
[[nodiscard]] RunInputs read_inputs(const VerifyOptions& options, const std::optional<std::filesystem::path>& bench,
                                    bool can_ask);

} // namespace zeroline::console
