#include "gui/register/unit_register.hpp"

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/visible_text.hpp"
#include "analysis/all_cores.hpp"
#include "gui/console/command.hpp"
#include "gui/console/register_text.hpp"
#include "gui/console/terminal.hpp"
#include "gui/records/recheck.hpp"
#include "gui/records/signing_key.hpp"
#include "gui/register/delivery.hpp"

#include <CLI/CLI.hpp>
#include <QDate>

#include <algorithm>
#include <iostream>
#include <memory>

namespace zeroline::console {

namespace fs = std::filesystem;
using trace::InputError;
using unit_register::Rows;
using unit_register::UnitRegister;

namespace {

struct RegisterOptions {
    std::string file, asked, since, within = "30d", backup;
    std::vector<std::string> folders;
    bool json = false, csv = false;
};

using Do = ExitStatus (*)(const UnitRegister& units, const RegisterOptions& options, const Request& request);

fs::path file_of(const RegisterOptions& options, const Request& request)
{
    return options.file.empty() ? unit_register::register_file(request.bench()) : fs::path(options.file);
}

ExitStatus show(const Rows& rows, const RegisterOptions& options)
{
    std::cout << (options.json ? rows.dump(2) + "\n" : rows_as_table(rows));
    return ExitStatus::pass;
}

ExitStatus list_units(const UnitRegister& units, const RegisterOptions& options, const Request&)
{
    return show(units.units(), options);
}

int days_within(const std::string& text)
{
    const auto digits = text.ends_with('d') ? text.substr(0, text.size() - 1) : std::string();
    constexpr std::size_t kDigits = 5;
    if (digits.empty() || digits.size() > kDigits || digits.find_first_not_of("0123456789") != std::string::npos) {
        throw InputError("--within", "'" + text + "'", "a number of days, such as 30d");
    }
    return std::stoi(digits);
}

std::string as_day(const QDate& day) { return day.toString(Qt::ISODate).toStdString(); }

ExitStatus list_due(const UnitRegister& units, const RegisterOptions& options, const Request&)
{
    const auto today = QDate::currentDate();
    return show(units.due(as_day(today), as_day(today.addDays(days_within(options.within)))), options);
}

ExitStatus show_history(const UnitRegister& units, const RegisterOptions& options, const Request&)
{
    const auto visits = units.history(options.asked);
    const auto drift = unit_register::drift_of(units.figures_of(options.asked));
    if (options.json) {
        std::cout << Rows{{"verifications", visits}, {"drift", drift_tree(drift)}}.dump(2) << '\n';
        return ExitStatus::pass;
    }
    std::cout << rows_as_table(visits) << drift_text(drift);
    return ExitStatus::pass;
}

ExitStatus list_touched(const UnitRegister& units, const RegisterOptions& options, const Request&)
{
    if (!options.since.empty() && !QDate::fromString(QString::fromStdString(options.since), Qt::ISODate).isValid()) {
        throw InputError("--since", "'" + options.since + "'", "a day such as 2026-11-25");
    }
    return show(units.touched_by(options.asked, options.since), options);
}

/// Runs that lie beside registered records, or where asked, without a seal.
ExitStatus list_unsigned(const UnitRegister& units, const RegisterOptions& options, const Request& request)
{
    auto places = units.places();
    places.insert(places.end(), options.folders.begin(), options.folders.end());
    auto rows = Rows::array();
    for (const auto& part : unit_register::unsigned_runs(file_of(options, request), places)) {
        rows.push_back(Rows{{"folder", part.string()}});
    }
    return show(rows, options);
}

ExitStatus check(const UnitRegister& units, const RegisterOptions& options, const Request&)
{
    const auto checked = units.check();
    if (options.json) {
        std::cout
            << Rows{{"records", checked.records}, {"events", checked.events}, {"troubles", checked.troubles}}.dump(2)
            << '\n';
    } else {
        for (const auto& trouble : checked.troubles) {
            std::cout << "! " << trace::visible_on_one_line(trouble) << '\n';
        }
        std::cout << checked.records << " records, " << checked.events << " events: "
                  << (checked.troubles.empty() ? "all as registered"
                                               : std::to_string(checked.troubles.size()) + " not as registered")
                  << '\n';
    }
    return checked.troubles.empty() ? ExitStatus::pass : ExitStatus::fail;
}

ExitStatus back_up(const UnitRegister& units, const RegisterOptions& options, const Request&)
{
    units.backup(options.backup);
    std::cout << options.backup << '\n';
    return ExitStatus::pass;
}

ExitStatus export_all(const UnitRegister& units, const RegisterOptions& options, const Request&)
{
    const auto rows = units.everything();
    std::cout << (options.json ? rows.dump(2) + "\n" : rows_as_csv(rows));
    return ExitStatus::pass;
}

struct Imported {
    std::optional<unit_register::Entry> entry;
    std::string trouble;
    ExitStatus status = ExitStatus::pass;
};

/// Everything is computed again, as `recheck` does, before a record comes in.
Imported read_in(const fs::path& folder, const records::KeyList& known)
{
    try {
        const auto result = records::recheck(folder, &known);
        if (!result.intact()) {
            const auto& troubles = result.folder.troubles.empty() ? result.differences : result.folder.troubles;
            return {{}, folder.string() + ": not intact: " + troubles.front(), ExitStatus::fail};
        }
        return {unit_register::read_entry(folder), {}, ExitStatus::pass};
    } catch (const std::exception& error) {
        return {{}, error.what(), ExitStatus::wrong_input};
    }
}

std::string added_word(unit_register::Added added)
{
    return added == unit_register::Added::record    ? "registered"
           : added == unit_register::Added::addenda ? "addenda registered"
                                                    : "known already";
}

ExitStatus import_all(const UnitRegister& units, const RegisterOptions& options, const Request& request)
{
    const auto known = records::own_keys(records::key_file(request.bench()));
    std::vector<Imported> all(options.folders.size());
    on_all_cores(all.size(), [&](std::size_t i) { all[i] = read_in(options.folders[i], known); });
    std::vector<ExitStatus> statuses;
    for (std::size_t i = 0; i < all.size(); ++i) {
        std::string text;
        try {
            if (all[i].entry) {
                text = added_word(units.add(*all[i].entry)) + "  " +
                       trace::visible_on_one_line(all[i].entry->record_number() + "  " + options.folders[i]) + "\n";
            }
        } catch (const InputError& error) {
            all[i].trouble = error.what();
            all[i].status = ExitStatus::fail;
        }
        print_outcome(text, all[i].trouble);
        statuses.push_back(all[i].status);
    }
    return status_of(statuses);
}

/// What is waiting comes in first: the list then shows it.
ExitStatus open_and(Do act, const RegisterOptions& options, const Request& request)
{
    if (options.file.empty()) {
        for (const auto& line : unit_register::deliver(request.bench())) {
            std::cerr << "zeroline: " << trace::visible_on_one_line(line) << '\n';
        }
    }
    return act(UnitRegister::open(file_of(options, request)), options, request);
}

} // namespace

void add_register(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand("register", "units and their verifications over the years");
    command->require_subcommand(1);
    const auto options = std::make_shared<RegisterOptions>();
    command->add_option("--register", options->file, "register file; else register.db beside the bench's key")
        ->type_name("FILE");
    const auto add = [&](const char* name, const char* what, Do act) {
        auto* one = command->add_subcommand(name, what);
        one->callback([&request, options, act] {
            request.act = [options, &request, act] { return open_and(act, *options, request); };
        });
        return one;
    };
    const auto add_list = [&](const char* name, const char* what, Do act) {
        auto* one = add(name, what, act);
        one->add_flag("--json", options->json, "as JSON, for other programs");
        return one;
    };
    add("import", "registers records, each rechecked first", import_all)
        ->add_option("FOLDER", options->folders, "record folders")
        ->required();
    add_list("units", "every unit with its last verification", list_units);
    add_list("due", "units to be checked, what cannot wait first", list_due)
        ->add_option("--within", options->within, "how far ahead (30d)")
        ->type_name("DAYS");
    add_list("history", "one unit: its verifications and how they drift", show_history)
        ->add_option("ASSET", options->asked, "asset number")
        ->required();
    auto* touched = add_list("touched-by", "every record that an instrument was used for", list_touched);
    touched->add_option("INSTRUMENT", options->asked, "its serial number or name")->required();
    touched->add_option("--since", options->since, "from this day on")->type_name("DAY");
    add_list("unsigned", "runs without a seal, beside registered records or in FOLDER", list_unsigned)
        ->add_option("FOLDER", options->folders, "folders that hold records");
    add_list("check", "proves that the register and its records are as they were registered", check);
    add("backup", "writes a copy of the register", back_up)
        ->add_option("FILE", options->backup, "file to make")
        ->required();
    auto* out = add("export", "every verification with every figure, as CSV or JSON", export_all);
    auto* json = out->add_flag("--json", options->json, "as JSON");
    out->add_flag("--csv", options->csv, "as CSV (the default)")->excludes(json);
}

} // namespace zeroline::console
