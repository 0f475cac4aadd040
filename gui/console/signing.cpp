#include "gui/console/signing.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/console/exit_status.hpp"
#include "gui/console/local_time.hpp"
#include "gui/console/page.hpp"
#include "gui/console/passphrase.hpp"
#include "gui/records/capture_journal.hpp"
#include "gui/records/signing_key.hpp"
#include "gui/register/delivery.hpp"
#include "gui/session/after_the_verdict.hpp"
#include "gui/session/result_view.hpp"

#include <CLI/CLI.hpp>

#include <chrono>
#include <map>
#include <mutex>

namespace zeroline::console {

namespace fs = std::filesystem;
using records::LoadedEvidence;
using records::RecordFolder;
using records::Signature;
using trace::InputError;

namespace {

constexpr const char* kUsualMeaning = "performed the verification and answers for this record";
constexpr const char* kUsualRole = "operator";

std::string asked(Terminal& terminal, const std::string& question, const std::string& otherwise)
{
    return terminal.ask_for_text(question, otherwise).value_or(std::string());
}

std::string operator_of(const LoadedEvidence& evidence)
{
    return evidence.run ? evidence.run->meaning.run_operator : std::string();
}

std::string now() { return local_rfc3339(std::chrono::system_clock::now()); }

std::string lacking(const std::string& known, const std::string& typed, const std::string& question, Terminal& terminal,
                    Ask ask)
{
    if (!typed.empty() || !known.empty()) {
        return typed;
    }
    return ask == Ask::person ? asked(terminal, question, {}) : std::string();
}

void say_missing(const RecordFolder& record, const std::vector<std::string>& missing, Terminal& terminal)
{
    std::string list;
    for (const auto& one : missing) {
        list += (list.empty() ? "" : "; ") + one;
    }
    terminal.say("Not sealed. Missing: " + list + ".");
    terminal.say("Kept in " + record.part().string() + "; 'zeroline assess " + record.part().string() +
                 "' completes it once that is known.");
}

} // namespace

records::Unlock bench_key(const std::optional<fs::path>& bench)
{
    return [bench] {
        // Whoever typed the passphrase before a run is not asked again at its end.
        static std::mutex one_asks;
        static std::map<fs::path, records::SigningKey> opened;
        const std::scoped_lock lock(one_asks);
        const auto file = records::key_file(bench);
        auto at = opened.find(file);
        if (at == opened.end()) {
            Terminal terminal;
            at = opened.emplace(file, records::SigningKey::load_or_make(file, ask_at(terminal))).first;
        }
        return at->second;
    };
}

void add_signing_options(CLI::App& command, SigningOptions& options)
{
    command.add_option("--signer", options.signer, "printed name of who signs; else asked for")->type_name("NAME");
    command.add_option("--role", options.role, "role of who signs")->type_name("ROLE");
    command.add_option("--meaning", options.meaning, "what the signature means")->type_name("TEXT");
    command.add_option("--number", options.number, "record number; else made of the run's start and the unit")
        ->type_name("NUMBER");
}

void add_lacking_options(CLI::App& command, LackingOptions& options)
{
    command.add_option("--place", options.place, "place of the run, where the run log has none")->type_name("PLACE");
    command.add_option("--customer", options.customer, "customer, or why there is none, where the order has none")
        ->type_name("TEXT");
}

bool put_lacking(const RecordFolder& record, const LoadedEvidence& evidence, const LackingOptions& options,
                 const std::optional<fs::path>& bench, Terminal& terminal, Ask ask)
{
    bool changed = false;
    if (evidence.run) {
        const auto place =
            lacking(evidence.run->meaning.place, options.place, "Place of the run [-: not known now]:", terminal, ask);
        changed = !place.empty();
        if (changed) {
            records::put_text(record, records::name::run, "place", place, bench_key(bench)());
        }
    }
    const auto customer = lacking(evidence.order.meaning.customer, options.customer,
                                  "Customer, or why there is none [-: not known now]:", terminal, ask);
    if (!customer.empty()) {
        records::put_text(record, records::name::order, "customer", customer, bench_key(bench)());
        changed = true;
    }
    if (bench && (!evidence.bench || evidence.bench->meaning.organisation.empty())) {
        records::amend(record, records::name::bench, records::load_bench(*bench).text, bench_key(bench)());
        changed = true;
    }
    return changed;
}

void add_disposition_options(CLI::App& command, DispositionOptions& options)
{
    auto* release = command.add_flag("--release", options.release, "the unit is released for use; only after a pass");
    auto* out = command.add_option("--keep-out", options.keep_out, "why the unit is kept out of use")
                    ->type_name("REASON")
                    ->excludes(release);
    command.add_option("--loaner", options.loaner, "number of the unit that stands in for one kept out")
        ->type_name("NUMBER")
        ->needs(out);
    auto* by = command.add_option("--adjusted-by", options.adjusted_by, "who adjusted the unit before this run")
                   ->type_name("NAME");
    command.add_flag("--authorised", options.authorised, "that person was authorised to adjust it")->needs(by);
}

namespace {

/// After a fail only: a pass defaults to nothing.
void ask_for_disposition(verification::Disposition& said, Terminal& terminal)
{
    said.reason = asked(terminal, "Is the unit kept out of use, and why? [-: not said]:", {});
    if (!said.reason.empty()) {
        said.unit = verification::Disposition::Unit::kept_out;
        said.loaner = asked(terminal, "Number of the loaner [-: none arranged]:", {});
    }
}

verification::Disposition disposition_typed(const DispositionOptions& options)
{
    using Unit = verification::Disposition::Unit;
    return {options.release             ? Unit::released
            : !options.keep_out.empty() ? Unit::kept_out
                                        : Unit::not_said,
            options.keep_out, options.loaner, options.adjusted_by, options.authorised};
}

} // namespace

bool put_disposition(const RecordFolder& record, LoadedEvidence& evidence, records::Assessed& assessed,
                     const DispositionOptions& options, const std::optional<fs::path>& bench, Terminal& terminal,
                     Ask ask)
{
    using Unit = verification::Disposition::Unit;
    auto said = disposition_typed(options);
    const auto result = session::result_view(assessed.record_json, session::Reader::terminal);
    if (said.unit == Unit::not_said && ask == Ask::person && result.exit_status == static_cast<int>(ExitStatus::fail)) {
        ask_for_disposition(said, terminal);
    }
    if (said.unit == Unit::released && !session::may_be_released(result)) {
        terminal.say("! Not released: the run did not pass.");
        said.unit = Unit::not_said;
    }
    if (!said.says_something()) {
        return false;
    }
    auto anew = session::judged_again_with(record, said, bench_key(bench)());
    evidence = std::move(anew.evidence);
    assessed = std::move(anew.assessed);
    return true;
}

Signature signature_for(const SigningOptions& options, const LoadedEvidence& evidence, Terminal& terminal, Ask ask)
{
    Signature signature{options.signer, options.role, options.meaning, now()};
    const auto known = operator_of(evidence);
    if (signature.signer.empty() && ask == Ask::person) {
        signature.signer = asked(terminal,
                                 "Printed name of who signs this record [" +
                                     (known.empty() ? "" : "Enter: " + known + "; ") + "-: not now]:",
                                 known);
        if (!signature.signer.empty() && signature.role.empty()) {
            signature.role = asked(terminal, std::string("Role [Enter: ") + kUsualRole + "]:", kUsualRole);
        }
        if (!signature.signer.empty() && signature.meaning.empty()) {
            signature.meaning = asked(terminal, std::string("Meaning [Enter: ") + kUsualMeaning + "]:", kUsualMeaning);
        }
        signature.time = now();
    } else if (signature.signer.empty() && ask == Ask::simulated) {
        signature.signer = known;
    }
    if (signature.role.empty() && signature.signer == known) {
        signature.role = kUsualRole;
    }
    if (signature.meaning.empty()) {
        signature.meaning = kUsualMeaning;
    }
    return signature;
}

records::Sealing sign_and_seal(const RecordFolder& record, const LoadedEvidence& evidence,
                               const records::Assessed& assessed, const SigningOptions& options,
                               const unit_register::Bench& bench, Terminal& terminal, Ask ask)
{
    try {
        const records::SealRequest request{signature_for(options, evidence, terminal, ask),
                                           records::key_file(bench.file), page_maker(), options.number,
                                           bench_key(bench.file)};
        unit_register::expect_record(bench, record.folder());
        auto sealing = records::seal_and_rename(record, evidence, assessed, request);
        if (!sealing.missing.empty()) {
            say_missing(record, sealing.missing, terminal);
            return sealing;
        }
        for (const auto& line : unit_register::deliver(bench, sealing.folder, bench_key(bench.file))) {
            terminal.say(line);
        }
        return sealing;
    } catch (const InputError& error) {
        throw InputError(error.where(), error.found(),
                         error.expected() + "; what there is is kept in " + record.part().string() +
                             ", 'zeroline assess " + record.part().string() + "' completes it");
    }
}

} // namespace zeroline::console
