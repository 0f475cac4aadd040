#include "gui/console/register_options.hpp"

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/visible_text.hpp"
#include "analysis/all_cores.hpp"
#include "gui/console/signing.hpp"
#include "gui/console/terminal.hpp"
#include "gui/records/recheck.hpp"
#include "gui/register/approved.hpp"
#include "gui/register/delivery.hpp"
#include "gui/register/last_event.hpp"
#include "gui/register/unit_list.hpp"

#include <iostream>

namespace zeroline::console {

namespace fs = std::filesystem;
using trace::InputError;
using unit_register::UnitRegister;
using unit_register::Value;

namespace {

/// Of the bench's own register; another one is nobody's memory.
void keep_last_event(const UnitRegister& units, const Request& request)
{
    if (request.global.place.empty()) {
        unit_register::remember_last_event(unit_register::register_file(request.bench()), units);
    }
}

struct Imported {
    std::optional<unit_register::Entry> entry;
    std::optional<unit_register::InstrumentEntry> instrument;
    std::string trouble;
    ExitStatus status = ExitStatus::pass;
};

/// Everything is computed again, as `recheck` does, before a record comes in.
Imported read_in(const fs::path& folder, const records::KeyList& known)
{
    try {
        if (unit_register::is_checks_file(folder)) {
            return {{}, unit_register::read_instrument_entry(folder), {}, ExitStatus::pass};
        }
        const auto result = records::recheck(folder, &known);
        if (!result.intact()) {
            const auto& troubles = result.folder.troubles.empty() ? result.differences : result.folder.troubles;
            return {{}, {}, folder.string() + ": not intact: " + troubles.front(), ExitStatus::fail};
        }
        return {unit_register::read_entry(folder), {}, {}, ExitStatus::pass};
    } catch (const std::exception& error) {
        return {{}, {}, error.what(), ExitStatus::wrong_input};
    }
}

std::string added_word(unit_register::Added added)
{
    return added == unit_register::Added::record    ? "registered"
           : added == unit_register::Added::addenda ? "addenda registered"
                                                    : "known already";
}

std::string record_taken_in(const unit_register::Entry& entry, const std::string& folder, const UnitRegister& units,
                            const records::SigningKey& key)
{
    auto text = added_word(units.add(entry, key)) + "  " +
                trace::visible_on_one_line(entry.record_number() + "  " + folder) + "\n";
    for (const auto& line : unit_register::not_approved(entry, units)) {
        text += "  " + trace::visible_on_one_line(line) + "\n";
    }
    return text;
}

/// Into the register, and what there is to tell of it.
void take_in(Imported& one, const std::string& folder, const UnitRegister& units, const records::SigningKey& key,
             const fs::path& own_register)
{
    std::string text;
    try {
        if (one.instrument) {
            text = std::string(units.add_instrument(*one.instrument, key) ? "checks registered" : "known already") +
                   "  " + trace::visible_on_one_line(folder) + "\n";
        }
        if (one.entry) {
            text = record_taken_in(*one.entry, folder, units, key);
            unit_register::forget_refusal(own_register, one.entry->folder);
        }
    } catch (const InputError& error) {
        one.trouble = error.what();
        one.status = ExitStatus::fail;
    }
    print_outcome(text, one.trouble);
}

} // namespace

ExitStatus import_all(const UnitRegister& units, const RegisterOptions& options, const Request& request)
{
    const auto known = records::own_keys(records::key_file(request.bench()));
    const auto key = bench_key(request.bench())();
    const auto own_register = unit_register::register_file(request.bench());
    std::vector<Imported> all(options.folders.size());
    on_all_cores(all.size(), [&](std::size_t i) { all[i] = read_in(options.folders[i], known); });
    std::vector<ExitStatus> statuses;
    for (std::size_t i = 0; i < all.size(); ++i) {
        take_in(all[i], options.folders[i], units, key, own_register);
        statuses.push_back(all[i].status);
    }
    keep_last_event(units, request);
    return status_of(statuses);
}

ExitStatus add_unit(const UnitRegister& units, const RegisterOptions& options, const Request& request)
{
    const std::vector<Value> one{{{"asset", options.asked}, {"serial", options.serial}, {"model", options.model}}};
    const bool added = units.add_units(one, bench_key(request.bench())()) == 1;
    keep_last_event(units, request);
    std::cout << (added ? "added  " : "known already  ") << trace::visible_on_one_line(options.asked) << '\n';
    return ExitStatus::pass;
}

ExitStatus add_units(const UnitRegister& units, const RegisterOptions& options, const Request& request)
{
    const auto all = unit_register::units_from(options.file);
    const auto added = units.add_units(all, bench_key(request.bench())());
    keep_last_event(units, request);
    std::cout << all.size() << " units read, " << added << " added, " << all.size() - added << " known already\n";
    return ExitStatus::pass;
}

ExitStatus approve_files(const UnitRegister& units, const RegisterOptions& options, const Request& request)
{
    std::vector<Value> files;
    for (const auto& file : options.folders) {
        files.push_back(unit_register::approvable(file));
        files.back()["by"] = options.by;
    }
    const auto key = bench_key(request.bench())();
    for (const auto& file : files) {
        units.approve(file, key);
        std::cout << "approved  " << file.at("kind").get<std::string>() << "  "
                  << trace::visible_on_one_line(file.at("name").get<std::string>()) << "  "
                  << file.at("sha256").get<std::string>() << '\n';
    }
    keep_last_event(units, request);
    return ExitStatus::pass;
}

} // namespace zeroline::console
