#include "gui/console/command.hpp"

#include "acquisition/trace/input_error.hpp"
#include "analysis/verification/civil_time.hpp"
#include "gui/console/local_time.hpp"
#include "gui/console/passphrase.hpp"
#include "gui/records/bench_key.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/json_file.hpp"

#include <CLI/CLI.hpp>

#include <chrono>
#include <iostream>
#include <memory>

namespace zeroline::console {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

struct KeyOptions {
    std::string backup, lost, since;
    bool change = false;
    bool passphrase = false;
};

std::string now() { return local_rfc3339(std::chrono::system_clock::now()); }

void back_up(const records::SigningKey& key, const fs::path& file, const KeyOptions& options, Terminal& terminal)
{
    // Under the same passphrase as the key itself would need it typed again; a new one is asked for instead.
    const auto passphrase = records::SigningKey::is_locked(file) ? new_passphrase(terminal) : std::string();
    key.save(options.backup, passphrase);
    std::cout << "Backup: " << options.backup << " (whoever has it signs in this bench's name: lock it away)\n";
}

void change(const fs::path& file, const records::SigningKey& key, Terminal& terminal)
{
    const auto passphrase = records::SigningKey::is_locked(file) ? new_passphrase(terminal) : std::string();
    const auto kept = records::change_key(file, key, now(), passphrase);
    std::cout << "The old key signed the new one and is kept in " << kept.string() << '\n';
}

void replace_lost(const fs::path& file, const std::string& name, const KeyOptions& options)
{
    const auto since = options.since.empty() ? now() : options.since;
    if (!verification::is_instant(since)) {
        throw InputError("--since", "'" + since + "'", "a time such as 2026-11-25T09:12:04+01:00");
    }
    records::revoke_key(file, name, since, options.lost);
    std::cout << "The key before is revoked from " << since << " on; hand out the list below anew.\n";
}

ExitStatus show_key(const KeyOptions& options, const Request& request)
{
    Terminal terminal;
    const auto bench = request.bench();
    const auto file = records::key_file(bench);
    const auto name = bench ? records::load_bench(*bench).meaning.organisation : std::string();
    if (!options.lost.empty()) {
        replace_lost(file, name, options);
    }
    const auto key = records::SigningKey::load_or_make(file, ask_at(terminal));
    const auto list = records::public_list(file, name);
    if (!options.backup.empty()) {
        back_up(key, file, options, terminal);
    }
    if (options.passphrase) {
        records::set_passphrase(file, key, new_passphrase(terminal));
    }
    auto shown = key.public_key();
    if (options.change) {
        change(file, key, terminal);
        shown = records::KeyList::load(list).current();
    }
    std::cout << "Key:         " << file.string() << (records::SigningKey::is_locked(file) ? " (with passphrase)" : "")
              << "\nFingerprint: " << records::fingerprint(shown) << "\nHand out:    " << list.string() << "\n\n"
              << records::read_file(list);
    return ExitStatus::pass;
}

} // namespace

void add_key(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand("key", "shows the key that seals this bench's records; made on first use");
    const auto options = std::make_shared<KeyOptions>();
    command->add_option("--backup", options->backup, "writes a copy of the private key")->type_name("FILE");
    command->add_flag("--change", options->change, "makes a new key; the old one signs it");
    command->add_flag("--passphrase", options->passphrase, "asks for a new passphrase of the key, or for none");
    auto* lost = command
                     ->add_option("--lost", options->lost,
                                  "revokes the key, which is lost, stolen or forgotten, and makes a new one: why")
                     ->type_name("TEXT");
    command->add_option("--since", options->since, "from when on a lost key is not to be trusted (now)")
        ->type_name("TIME")
        ->needs(lost);
    command->callback(
        [&request, options] { request.act = [options, &request] { return show_key(*options, request); }; });
}

} // namespace zeroline::console
