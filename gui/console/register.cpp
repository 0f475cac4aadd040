#include "gui/console/register_options.hpp"

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/visible_text.hpp"
#include "gui/console/register_text.hpp"
#include "gui/console/signing.hpp"
#include "gui/console/terminal.hpp"
#include "gui/records/key_list.hpp"
#include "gui/records/signing_key.hpp"
#include "gui/register/delivery.hpp"
#include "gui/register/fhir_bundle.hpp"
#include "gui/register/last_event.hpp"
#include "gui/register/schema.hpp"
#include "gui/register/suspected_instrument.hpp"

#include <CLI/CLI.hpp>
#include <QDate>

#include <iostream>
#include <memory>

namespace zeroline::console {

namespace fs = std::filesystem;
using trace::InputError;
using unit_register::Rows;
using unit_register::UnitRegister;

namespace {

using Do = ExitStatus (*)(const UnitRegister& units, const RegisterOptions& options, const Request& request);

/// `none` says what is empty, and what to do.
ExitStatus show(const Rows& rows, const RegisterOptions& options, const std::string& none)
{
    std::cout << (options.json ? rows.dump(2) + "\n" : rows.empty() ? none + "\n" : rows_as_table(rows));
    return ExitStatus::pass;
}

ExitStatus list_units(const UnitRegister& units, const RegisterOptions& options, const Request&)
{
    return show(
        units.units({options.search}), options,
        "No unit yet. A saved run brings its unit in; 'zeroline register import FOLDER' brings in earlier records, "
        "'add-unit' and 'units-from' units without one.");
}

ExitStatus show_unit(const UnitRegister& units, const RegisterOptions& options, const Request&)
{
    auto unit = units.unit(options.asked);
    unit["next_check"] = unit_register::drift_of(units.figures_of(options.asked)).next_check;
    const auto last = units.last_of(options.asked);
    unit["last_record"] = last.empty() ? Rows() : last[0]["folder"];
    std::cout << (options.json ? unit.dump(2) + "\n" : row_as_lines(unit));
    return ExitStatus::pass;
}

ExitStatus list_approved(const UnitRegister& units, const RegisterOptions& options, const Request&)
{
    return show(units.approved(), options, "No file was approved yet: 'zeroline register approve FILE' does it.");
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
    return show(units.due(as_day(today), as_day(today.addDays(days_within(options.within))), {options.search}), options,
                "No unit is to be checked within " + options.within + ". --within 90d looks farther ahead.");
}

ExitStatus show_history(const UnitRegister& units, const RegisterOptions& options, const Request&)
{
    const auto visits = units.history(options.asked);
    const auto drift = unit_register::drift_of(units.figures_of(options.asked));
    if (options.json) {
        std::cout << Rows{{"verifications", visits}, {"drift", drift_tree(drift)}}.dump(2) << '\n';
        return ExitStatus::pass;
    }
    std::cout << (visits.empty() ? "No verification yet.\n"
                                 : rows_as_table(visits, {"asset", "serial", "model", "instrument_name"}))
              << drift_text(drift, Drifting::unit);
    return ExitStatus::pass;
}

Rows with_suspicions(Rows rows, const std::vector<unit_register::SuspectedInstrument>& suspected)
{
    for (auto& row : rows) {
        row["suspected"] = nullptr;
        for (const auto& one : suspected) {
            if (row["name"] == one.name && row["serial"] == one.serial) {
                row["suspected"] = suspicion(one);
            }
        }
    }
    return rows;
}

ExitStatus list_instruments(const UnitRegister& units, const RegisterOptions& options, const Request&)
{
    constexpr int kYearBack = 366;
    const auto rows = units.instruments({options.search});
    const auto suspected =
        unit_register::suspected_instruments(units.pressures_since(as_day(QDate::currentDate().addDays(-kYearBack))));
    if (options.json) {
        std::cout << with_suspicions(rows, suspected).dump(2) << '\n';
        return ExitStatus::pass;
    }
    (void)show(rows, options, "No instrument yet: the first registered record brings its own in.");
    for (const auto& one : suspected) {
        std::cout << "! suspected: " << trace::visible_on_one_line(unit_register::suspicion(one)) << '\n';
    }
    return ExitStatus::pass;
}

/// Points of an instrument, and how they drift: at its calibrations, or beside a second gauge.
Rows checks_tree(const Rows& points)
{
    return {{"points", points}, {"drift", drift_tree(unit_register::drift_of(points))}};
}

std::string checks_text(const std::string& what, const Rows& points, const std::string& none)
{
    return "\n" + what + ": " +
           (points.empty() ? none + "\n" : drift_text(unit_register::drift_of(points), Drifting::instrument));
}

ExitStatus show_instrument(const UnitRegister& units, const RegisterOptions& options, const Request&)
{
    auto trees = Rows::array();
    for (const auto& one : units.instruments_called(options.asked)) {
        const auto calibrations = units.calibrations_of(one["name"], one["serial"]);
        const auto gauge = units.gauge_checks_of(one["name"], one["serial"]);
        trees.push_back(
            {{"instrument", one}, {"calibrations", checks_tree(calibrations)}, {"gauge_checks", checks_tree(gauge)}});
        if (!options.json) {
            std::cout << row_as_lines(one)
                      << checks_text("Calibrations", calibrations, "none with points is registered.")
                      << checks_text("Against a second gauge", gauge,
                                     "no check is registered; 'zeroline check-instrument' makes one.");
        }
    }
    std::cout << (options.json ? trees.dump(2) + "\n" : std::string());
    return ExitStatus::pass;
}

ExitStatus list_touched(const UnitRegister& units, const RegisterOptions& options, const Request&)
{
    if (!options.since.empty() && !QDate::fromString(QString::fromStdString(options.since), Qt::ISODate).isValid()) {
        throw InputError("--since", "'" + options.since + "'", "a day such as 2026-11-25");
    }
    return show(units.touched_by(options.asked, options.since), options,
                "No record of it" + (options.since.empty() ? std::string() : " since " + options.since) + ".");
}

/// Runs that lie beside registered records, or where asked, without a seal.
ExitStatus list_unsigned(const UnitRegister& units, const RegisterOptions& options, const Request& request)
{
    auto places = units.places();
    places.insert(places.end(), options.folders.begin(), options.folders.end());
    auto rows = Rows::array();
    for (const auto& part : unit_register::unsigned_runs(unit_register::register_file(request.bench()), places)) {
        rows.push_back(Rows{{"folder", part.string()}});
    }
    return show(rows, options,
                "No unsigned run beside registered records. A FOLDER behind the command is looked through too.");
}

/// Records of this bench that its register refused are not as they should be either.
unit_register::Checked all_checked(const UnitRegister& units, const Request& request)
{
    auto checked = units.check();
    if (request.global.place.empty()) {
        const auto own = unit_register::register_file(request.bench());
        for (const auto& one : unit_register::refused_records(own)) {
            checked.troubles.push_back("not registered: " + one.reason);
        }
        if (const auto lost = unit_register::lost_events(own, units); !lost.empty()) {
            checked.troubles.push_back(lost);
        }
    }
    return checked;
}

void say_who_signed(const unit_register::Checked& checked, const records::KeyList& own)
{
    for (const auto& [key, events] : checked.signed_by) {
        const auto name = own.name_of(key);
        std::cout << events << " events signed by key " << records::fingerprint(key) << ", "
                  << (name.empty() ? "no key of this bench" : "of this bench: " + trace::visible_on_one_line(name))
                  << '\n';
    }
    if (checked.unsigned_events > 0) {
        std::cout << checked.unsigned_events << " events of a program that did not sign them\n";
    }
}

Rows checked_tree(const unit_register::Checked& checked)
{
    auto keys = Rows::array();
    for (const auto& [key, events] : checked.signed_by) {
        keys.push_back(Rows{{"key", records::fingerprint(key)}, {"events", events}});
    }
    return {{"records", checked.records}, {"events", checked.events},     {"unsigned_events", checked.unsigned_events},
            {"signed_by", keys},          {"troubles", checked.troubles}, {"remarks", checked.remarks}};
}

ExitStatus check(const UnitRegister& units, const RegisterOptions& options, const Request& request)
{
    const auto checked = all_checked(units, request);
    if (options.json) {
        std::cout << checked_tree(checked).dump(2) << '\n';
        return checked.troubles.empty() ? ExitStatus::pass : ExitStatus::fail;
    }
    for (const auto& trouble : checked.troubles) {
        std::cout << "! " << trace::visible_on_one_line(trouble) << '\n';
    }
    for (const auto& remark : checked.remarks) {
        std::cout << "note: " << trace::visible_on_one_line(remark) << '\n';
    }
    say_who_signed(checked, records::own_keys(records::key_file(request.bench())));
    std::cout << checked.records << " records, " << checked.events << " events: "
              << (checked.troubles.empty() ? "all as registered"
                                           : std::to_string(checked.troubles.size()) + " not as registered")
              << '\n';
    return checked.troubles.empty() ? ExitStatus::pass : ExitStatus::fail;
}

ExitStatus back_up(const UnitRegister& units, const RegisterOptions& options, const Request&)
{
    units.backup(options.file);
    std::cout << options.file << '\n';
    return ExitStatus::pass;
}

ExitStatus export_all(const UnitRegister& units, const RegisterOptions& options, const Request&)
{
    const auto rows = units.everything();
    std::cout << (options.fhir   ? unit_register::fhir_bundle(rows, unit_register::moment_now()).dump(2) + "\n"
                  : options.json ? rows.dump(2) + "\n"
                                 : rows_as_csv(rows));
    return ExitStatus::pass;
}

/// What is waiting comes in first: the list then shows it.
ExitStatus open_and(Do act, const RegisterOptions& options, const Request& request)
{
    const auto bench = request.registering();
    if (bench.other_register.empty()) {
        for (const auto& line : unit_register::deliver(bench, {}, bench_key(bench.file))) {
            print_outcome({}, line);
        }
    }
    return act(UnitRegister::open(unit_register::register_place(bench)), options, request);
}

/// `register --help` shows the options of all its commands: each alone has few.
class HelpWithOptions : public CLI::Formatter {
public:
    std::string make_help(const CLI::App* app, std::string name, CLI::AppFormatMode) const override
    {
        return CLI::Formatter::make_help(app, std::move(name), CLI::AppFormatMode::All);
    }
    /// A command within names itself twice where all are shown.
    std::string make_usage(const CLI::App* app, std::string name) const override
    {
        const auto own = app->get_name();
        return CLI::Formatter::make_usage(app, name == own + ' ' + own ? "register " + own : std::move(name));
    }
};

/// Adds a command of `register`.
using Adds = std::function<CLI::App*(const char* name, const char* what, Do act)>;

void add_lists(const Adds& add_list, RegisterOptions& options)
{
    const auto with_search = [&options](CLI::App* list, const char* where) {
        list->add_option("--search", options.search, where)->type_name("TEXT");
        return list;
    };
    const auto* in_a_unit = "only what has this in its asset, serial number, model, records or orders";
    with_search(add_list("units", "every unit with its last verification", list_units), in_a_unit);
    add_list("unit", "one unit: who it is, its last verification, its next check", show_unit)
        ->add_option("ASSET", options.asked, "asset number")
        ->required();
    with_search(add_list("instruments", "every instrument, the next calibration due first", list_instruments),
                "only what has this in its name or serial number");
    add_list("instrument", "one instrument: its calibrations and how they drift", show_instrument)
        ->add_option("INSTRUMENT", options.asked, "its serial number or name")
        ->required();
    with_search(add_list("due", "units to be checked, what cannot wait first", list_due), in_a_unit)
        ->add_option("--within", options.within, "how far ahead (30d)")
        ->type_name("DAYS");
    add_list("history", "one unit: its verifications and how they drift", show_history)
        ->add_option("ASSET", options.asked, "asset number")
        ->required();
    auto* touched = add_list("touched-by", "every record that an instrument was used for", list_touched);
    touched->add_option("INSTRUMENT", options.asked, "its serial number or name")->required();
    touched->add_option("--since", options.since, "from this day on")->type_name("DAY");
    add_list("unsigned", "runs without a seal, beside registered records or in FOLDER", list_unsigned)
        ->add_option("FOLDER", options.folders, "folders that hold records");
    add_list("approved", "instrument, procedure and bench files that were approved", list_approved);
    add_list("check", "proves that the register and its records are as they were registered", check);
}

void add_entries(const Adds& add, RegisterOptions& options)
{
    add("import", "registers records, each rechecked first", import_all)
        ->add_option("FOLDER", options.folders, "record folders")
        ->required();
    auto* unit = add("add-unit", "adds a unit that was not verified yet", add_unit);
    unit->add_option("ASSET", options.asked, "asset number")->required();
    unit->add_option("--serial", options.serial, "serial number")->type_name("TEXT");
    unit->add_option("--model", options.model, "model")->type_name("TEXT");
    add("units-from", "adds units from a CSV table: asset, serial, model", add_units)
        ->add_option("FILE", options.file, "the table, UTF-8")
        ->required();
    auto* approve = add("approve", "keeps that instrument, procedure or bench files are approved", approve_files);
    approve->add_option("FILE", options.folders, "the files")->required();
    approve->add_option("--by", options.by, "who approves")->type_name("NAME")->required();
    add("backup", "writes a copy of the register", back_up)
        ->add_option("FILE", options.file, "file to make")
        ->required();
}

void add_export_of_register(const Adds& add, RegisterOptions& options)
{
    auto* out = add("export", "every verification with every figure: CSV, JSON, or HL7 FHIR R4", export_all);
    auto* json = out->add_flag("--json", options.json, "as JSON");
    auto* csv = out->add_flag("--csv", options.csv, "as CSV (the default)")->excludes(json);
    out->add_flag("--fhir", options.fhir, "as an HL7 FHIR R4 bundle")->excludes(json)->excludes(csv);
}

} // namespace

void add_register(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand("register", "units and their verifications over the years");
    command->require_subcommand(1);
    command->formatter(std::make_shared<HelpWithOptions>());
    const auto options = std::make_shared<RegisterOptions>();
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
    add_entries(add, *options);
    add_lists(add_list, *options);
    add_export_of_register(add, *options);
}

} // namespace zeroline::console
