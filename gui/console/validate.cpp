#include "gui/console/command.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/console/local_time.hpp"
#include "gui/console/page.hpp"
#include "gui/console/published_checks.hpp"
#include "gui/console/shared_libraries.hpp"
#include "gui/console/signing.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/manifest.hpp"
#include "gui/records/seal.hpp"
#include "gui/records/signing_key.hpp"

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <chrono>
#include <iostream>
#include <memory>

namespace zeroline::console {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

struct ValidateOptions {
    std::string out;
    SigningOptions signing;
    bool as_json = false;
};

bool all_agree(const ChecksPage& page)
{
    return std::all_of(page.checks.begin(), page.checks.end(), [](const auto& check) { return check.agrees; });
}

std::string text_of(const PublishedCheck& check)
{
    return std::string(check.agrees ? "ok      " : "FAILED  ") + check.what + "\n        source:   " + check.source +
           "\n        expected: " + check.expected + (check.within.empty() ? "" : " +- " + check.within) +
           "\n        got:      " + check.got + "\n";
}

/// What was run: program and libraries with their checksums, so that the page speaks about this installation only.
std::vector<std::pair<fs::path, std::string>> files_with_checksums()
{
    std::vector<std::pair<fs::path, std::string>> files;
    for (const auto& file : loaded_files()) {
        files.emplace_back(file, records::sha256(records::read_file(file)));
    }
    return files;
}

std::string evidence_text(const ChecksPage& page)
{
    std::string text = "Validation of this installation against published values\n" + page.signature.time + "\n\n" +
                       page.version + "\n\nSHA-256 of program and libraries as loaded\n";
    for (const auto& [file, sha256] : page.files) {
        text += sha256 + "  " + file.string() + "\n";
    }
    text += "\n" + totals_of(page.checks) + "\n";
    std::string group;
    for (const auto& check : page.checks) {
        if (check.group != group) {
            group = check.group;
            text += "\n" + group + "\n";
        }
        text += text_of(check);
    }
    return text +
           "\nWhether these checks are enough for a use is for whoever uses the program to say. It is test "
           "equipment, no medical device, and this page is no claim of accreditation.\n\n" +
           totals_of(page.checks) + "\n";
}

std::string json_of(const ChecksPage& page)
{
    nlohmann::ordered_json tree{{"agrees", all_agree(page)}, {"time", page.signature.time}, {"version", page.version}};
    tree["files"] = nlohmann::ordered_json::array();
    for (const auto& [file, sha256] : page.files) {
        tree["files"].push_back({{"file", file.string()}, {"sha256", sha256}});
    }
    tree["checks"] = nlohmann::ordered_json::array();
    for (const auto& check : page.checks) {
        tree["checks"].push_back({{"group", check.group},
                                  {"what", check.what},
                                  {"source", check.source},
                                  {"expected", check.expected},
                                  {"got", check.got},
                                  {"within", check.within},
                                  {"agrees", check.agrees}});
    }
    return tree.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

/// The page, and beside it a manifest with its checksum and a seal over that, as a record has them.
void save(const ValidateOptions& options, ChecksPage content, const Request& request)
{
    const fs::path page = options.out;
    const fs::path manifest_file = options.out + ".sha256";
    const fs::path seal_file = options.out + ".seal.json";
    for (const auto& file : {page, manifest_file, seal_file}) {
        if (std::error_code none; fs::exists(file, none)) {
            throw InputError(file.string(), "is there already",
                             "a file that does not exist yet; nothing is overwritten");
        }
    }
    const auto key = bench_key(request.bench())();
    content.key = records::fingerprint(key.public_key());
    if (page.extension() == ".pdf") {
        const auto print = checks_printer();
        if (!print) {
            throw InputError(options.out, "this build makes no PDF", "a file name that ends in .txt");
        }
        print(content, page);
    } else {
        records::write_file_whole(page, evidence_text(content));
    }
    const records::Manifest manifest{
        content.signature, content.key, {}, {{page.filename().string(), records::sha256(records::read_file(page))}}};
    records::write_file_whole(manifest_file, manifest.text());
    records::write_file_whole(seal_file, records::seal_manifest(manifest.text(), key).text());
}

ExitStatus validate(const ValidateOptions& options, const Request& request)
{
    const auto& typed = options.signing;
    for (const auto& [text, option] : {std::pair(&typed.signer, "--signer"), std::pair(&typed.role, "--role"),
                                       std::pair(&typed.meaning, "--meaning")}) {
        records::check_signature_text(*text, option);
    }
    const ChecksPage content{published_checks(),
                             version_text(),
                             files_with_checksums(),
                             {typed.signer, typed.role,
                              typed.meaning.empty() ? "validated this installation" : typed.meaning,
                              local_rfc3339(std::chrono::system_clock::now())},
                             {}};
    if (!options.out.empty()) {
        save(options, content, request);
    }
    std::cout << (options.as_json ? json_of(content) : evidence_text(content));
    return all_agree(content) ? ExitStatus::pass : ExitStatus::fail;
}

} // namespace

void add_validate(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand("validate", "proves this installation against published values");
    const auto options = std::make_shared<ValidateOptions>();
    command->add_option("--out", options->out, "saves the evidence page, sealed")->type_name("FILE.pdf|FILE.txt");
    command->add_option("--signer", options->signing.signer, "printed name of who validates")->type_name("NAME");
    command->add_option("--role", options->signing.role, "role of who validates")->type_name("ROLE");
    command->add_option("--meaning", options->signing.meaning, "what the signature means")->type_name("TEXT");
    command->add_flag("--json", options->as_json, "for a script");
    command->callback(
        [&request, options] { request.act = [options, &request] { return validate(*options, request); }; });
}

} // namespace zeroline::console
