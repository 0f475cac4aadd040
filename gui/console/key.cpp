#include "gui/console/command.hpp"

#include "gui/console/local_time.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/folder_hold.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/key_list.hpp"

#include <CLI/CLI.hpp>

#include <chrono>
#include <iostream>
#include <memory>

namespace zeroline::console {

namespace {

struct KeyOptions {
    std::string backup;
    bool change = false;
};

ExitStatus show_key(const KeyOptions& options, const Request& request)
{
    const auto bench = request.bench();
    const auto file = records::key_file(bench);
    std::filesystem::create_directories(std::filesystem::absolute(file).parent_path());
    const records::FolderHold hold(file.parent_path());
    const auto name = bench ? records::load_bench(*bench).meaning.organisation : std::string();
    const auto key = records::SigningKey::load_or_make(file);
    const auto list = records::public_list(file, name);
    if (!options.backup.empty()) {
        key.save(options.backup);
        std::cout << "Backup: " << options.backup << " (whoever has it signs in this bench's name: lock it away)\n";
    }
    if (options.change) {
        const auto kept = records::change_key(file, name, local_rfc3339(std::chrono::system_clock::now()));
        std::cout << "The old key signed the new one and is kept in " << kept.string() << '\n';
    }
    std::cout << "Key:         " << file.string()
              << "\nFingerprint: " << records::fingerprint(records::SigningKey::load(file).public_key())
              << "\nHand out:    " << list.string() << "\n\n"
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
    command->callback(
        [&request, options] { request.act = [options, &request] { return show_key(*options, request); }; });
}

} // namespace zeroline::console
