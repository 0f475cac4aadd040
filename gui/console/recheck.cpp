#include "gui/records/recheck.hpp"

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/visible_text.hpp"
#include "gui/console/command.hpp"
#include "gui/console/in_order.hpp"
#include "gui/console/recheck_json.hpp"
#include "gui/console/signature_text.hpp"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <iostream>
#include <memory>

namespace zeroline::console {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

struct RecheckOptions {
    std::vector<std::string> folders;
    std::string trust, out;
    bool as_json = false;
};

struct Outcome {
    ExitStatus status = ExitStatus::wrong_input;
    std::string text;
    std::string trouble;
    bool intact = false;
    bool critical = false;
};

std::string indented(const std::vector<std::string>& lines, const std::string& sign)
{
    std::string text;
    for (const auto& line : lines) {
        text += "  " + sign + trace::visible_on_one_line(line) + "\n";
    }
    return text;
}

std::string addenda_text(const records::Recheck& result)
{
    std::vector<std::string> lines;
    for (const auto& addendum : result.folder.addenda) {
        const auto body = addendum.text.empty() ? "" : ": " + addendum.text;
        const auto why = addendum.reason.empty() ? "" : " (reason: " + addendum.reason + ")";
        lines.push_back(addendum.kind + body + why + "; " + signature_text(addendum.signature));
    }
    return indented(lines, "+ ");
}

/// What stands in front: whether it is intact, and what keeps that from saying all.
std::string headline(const records::Recheck& result)
{
    std::string line = result.intact() ? "intact" : "NOT INTACT";
    line += result.intact() && (result.signed_by.empty() || !result.unknown_keys.empty()) ? ", key not known" : "";
    line += result.dates.empty() ? "" : ", dates that cannot be";
    constexpr std::size_t wide = 12;
    return line + std::string(line.size() < wide ? wide - line.size() : 2, ' ');
}

std::vector<std::string> about_keys(const records::Recheck& result)
{
    std::vector<std::string> lines;
    for (const auto& key : result.unknown_keys) {
        lines.push_back("the key " + key + " is not known");
    }
    return lines;
}

/// A line for the record, and below it what is wrong or worth knowing.
std::string text_of(const fs::path& folder, const records::Recheck& result, bool trusted_only)
{
    std::string line = headline(result);
    line += result.record_number.empty() ? "(no number)" : result.record_number;
    line += "  " + (result.verdict.empty() ? "no verdict" : result.verdict) + (result.critical ? ", CRITICAL" : "") +
            "  " + folder.string() + "  ";
    line += result.folder.signature.signer.empty() ? "not signed" : signature_text(result.folder.signature);
    if (!result.folder.public_key.empty()) {
        line += ", key " + records::fingerprint(result.folder.public_key).substr(0, 16);
    }
    if (!result.signed_by.empty()) {
        line += ", known: " + result.signed_by;
    }
    return trace::visible_on_one_line(line) + "\n" + addenda_text(result) + indented(result.folder.troubles, "! ") +
           indented(result.differences, "! ") + indented(result.dates, "! ") +
           indented(about_keys(result), trusted_only ? "! " : "  ") + indented(result.remarks, "  ");
}

/// Where the seal of one of several records goes: a folder of its record's name.
fs::path export_place(const fs::path& out, const fs::path& folder)
{
    const auto clean = folder.lexically_normal();
    return out / (clean.has_filename() ? clean : clean.parent_path()).filename();
}

Outcome unreadable(const fs::path& folder, const std::string& why, const RecheckOptions& options)
{
    return {ExitStatus::wrong_input, options.as_json ? unreadable_json(folder, why) : "", why, false, false};
}

Outcome try_recheck(const fs::path& folder, const RecheckOptions& options, const records::KeyList& known)
{
    try {
        const bool trusted_only = !options.trust.empty();
        const auto result = records::recheck(folder, &known);
        const bool good = result.intact() && !(trusted_only && !result.unknown_keys.empty());
        if (!options.out.empty()) {
            records::export_seal(folder, export_place(options.out, folder));
        }
        const auto status = good ? ExitStatus::pass : ExitStatus::fail;
        return {status,
                options.as_json ? recheck_json(folder, result, status) : text_of(folder, result, trusted_only),
                {},
                result.intact(),
                result.critical};
    } catch (const InputError& error) {
        return unreadable(folder, error.what(), options);
    } catch (const std::exception& error) {
        return unreadable(folder, folder.string() + ": " + error.what(), options);
    }
}

std::string totals(const std::vector<Outcome>& outcomes)
{
    const auto count = [&](bool (*is_one)(const Outcome&)) {
        return std::count_if(outcomes.begin(), outcomes.end(), is_one);
    };
    const auto intact = count([](const Outcome& one) { return one.intact; });
    const auto unreadable = count([](const Outcome& one) { return one.status == ExitStatus::wrong_input; });
    const auto unknown = count([](const Outcome& one) { return one.intact && one.status != ExitStatus::pass; });
    const auto critical = count([](const Outcome& one) { return one.critical; });
    const auto all = static_cast<std::ptrdiff_t>(outcomes.size());
    return std::to_string(all) + " records: " + std::to_string(intact) + " intact" +
           (unknown > 0 ? " (" + std::to_string(unknown) + " by a key that is not known)" : "") + ", " +
           std::to_string(all - intact - unreadable) + " not intact, " + std::to_string(unreadable) + " unreadable" +
           (critical > 0 ? ", " + std::to_string(critical) + " CRITICAL" : "") + "\n";
}

/// As named, else the bench's own; a bench that never sealed knows none.
records::KeyList known_keys(const RecheckOptions& options, const Request& request)
{
    if (!options.trust.empty()) {
        return records::KeyList::load(options.trust);
    }
    return records::own_keys(records::key_file(request.bench()));
}

ExitStatus recheck_all(const RecheckOptions& options, const Request& request)
{
    const auto known = known_keys(options, request);
    const auto outcomes = work_in_order<Outcome>(
        options.folders.size(), [&](std::size_t i) { return try_recheck(options.folders[i], options, known); },
        [](const Outcome& outcome) { print_outcome(outcome.text, outcome.trouble); });
    std::vector<ExitStatus> statuses;
    for (const auto& outcome : outcomes) {
        statuses.push_back(outcome.status);
    }
    if (outcomes.size() > 1 && !options.as_json) {
        std::cout << totals(outcomes);
    }
    return status_of(statuses);
}

} // namespace

void add_recheck(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand("recheck", "checks saved records: files, seal, and everything computed again");
    const auto options = std::make_shared<RecheckOptions>();
    command->add_option("FOLDER", options->folders, "record folders")->required();
    command
        ->add_option("--trust", options->trust,
                     "public keys that are known, in place of this bench's own; with any other the status is 1")
        ->type_name("KEYS");
    command->add_option("--export", options->out, "writes manifest, signature and public key for other tools")
        ->type_name("FOLDER");
    command->add_flag("--json", options->as_json, "for a script: a line for each record");
    command->callback(
        [&request, options] { request.act = [options, &request] { return recheck_all(*options, request); }; });
}

} // namespace zeroline::console
