#include "gui/register/entry.hpp"

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/instrument.hpp"
#include "gui/records/addenda.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/folder_check.hpp"
#include "gui/records/procedure_file.hpp"
#include "gui/records/recheck.hpp"
#include "gui/records/signing_key.hpp"
#include "gui/register/approved.hpp"
#include "gui/register/instrument_entry.hpp"
#include "gui/register/released.hpp"

#include <QDate>
#include <QDateTime>
#include <QString>

namespace zeroline::unit_register {

namespace fs = std::filesystem;
using nlohmann::json;
using trace::InputError;

namespace {

/// What stands at a JSON pointer; null where nothing stands there.
json at(const json& record, const std::string& pointer)
{
    const json::json_pointer place(pointer);
    return record.contains(place) ? record.at(place) : json();
}

std::string text(const json& record, const std::string& pointer)
{
    const auto value = at(record, pointer);
    return value.is_string() ? value.get<std::string>() : std::string();
}

QString instant(const json& record)
{
    const auto began = text(record, "/run/began");
    return QString::fromStdString(began.empty() ? text(record, "/issue/issued") : began);
}

/// The day until which the unit is released; null where it is not, or its bench file sets no interval. What was
/// simulated or came from elsewhere releases nothing.
json next_due(const json& record, const records::OpenFolder& folder)
{
    const bool released =
        record.at("origin") == "captured-here" &&
        is_released(record.at("verdict"), record.at("unit_accuracy"), record.at("critical").get<bool>());
    const auto day = QDate::fromString(instant(record).left(10), Qt::ISODate);
    if (!released || !day.isValid() || !folder.has_file(records::name::bench)) {
        return nullptr;
    }
    const auto bench = folder.json(records::name::bench);
    const auto months = bench.find("interval_months");
    return months == bench.end() ? json() : json(day.addMonths(months->get<int>()).toString(Qt::ISODate).toStdString());
}

json figure_of(const json& judgement)
{
    const auto against = judgement.at("against").get<std::string>();
    const auto target = against == "set" ? judgement.at("set") : judgement.at("prescribed");
    return {{"measurand", judgement.at("measurand")},
            {"preset", judgement.at("preset").is_string() ? judgement.at("preset") : json("")},
            {"compared_with", against},
            {"unit", judgement.at("unit")},
            {"target", against == "measured" ? json() : target},
            {"lower_limit", judgement.at("lower")},
            {"upper_limit", judgement.at("upper")},
            {"mean", judgement.at("mean")},
            {"mean_uncertainty", judgement.at("mean_uncertainty")},
            {"worst", judgement.at("worst")},
            {"worst_uncertainty", judgement.at("expanded_uncertainty")},
            {"verdict", judgement.at("verdict")}};
}

/// A column of decimals holds decimals, as the database gives them back.
void put_figures(Entry& entry, const json& record)
{
    for (const auto& judgement : record.at("judgements")) {
        if (judgement.value("power", "") == "battery") {
            continue; // one figure a visit: what is compared over the years ran on mains
        }
        auto figure = figure_of(judgement);
        for (auto& value : figure) {
            value = value.is_number() ? json(value.get<double>()) : value;
        }
        figure["record_number"] = entry.verification.at("record_number");
        figure["place"] = static_cast<std::int64_t>(entry.figures.size());
        entry.figures.push_back(std::move(figure));
    }
}

json verification_of(const json& record, const records::OpenFolder& folder, const records::FolderCheck& check)
{
    const auto& instrument = record.at("instrument");
    return {{"record_number", record.at("/issue/record_number"_json_pointer)},
            {"asset", record.at("/unit/asset"_json_pointer)},
            {"instrument_name", instrument.is_null() ? json() : instrument.at("name")},
            {"instrument_serial", instrument.is_null() ? json() : instrument.at("serial")},
            {"work_order", record.at("/order/work_order"_json_pointer)},
            {"occasion", record.at("/order/occasion"_json_pointer)},
            {"day", instant(record).left(10).toStdString()},
            {"began_utc", in_utc(instant(record).toStdString())},
            {"verdict", record.at("verdict")},
            {"unit_accuracy", record.at("unit_accuracy")},
            {"critical", record.at("critical").get<bool>() ? 1 : 0},
            {"origin", record.at("origin")},
            {"signer", check.signature.signer},
            {"signed", check.signature.time},
            {"signing_key", records::fingerprint(check.public_key)},
            {"manifest_sha256", folder.sha256(records::name::manifest)},
            {"next_due", next_due(record, folder)}};
}

json signature_row(const std::string& addendum, const std::string& kind, const records::Signature& signature)
{
    return {{"addendum", addendum},         {"kind", kind},
            {"signer", signature.signer},   {"role", signature.role},
            {"meaning", signature.meaning}, {"signed", signature.time}};
}

void put_signatures(Entry& entry, const records::OpenFolder& folder, const records::Signature& of_record)
{
    entry.signatures.push_back(signature_row("", "record", of_record));
    if (const auto all = folder.folder_if_any(records::name::addenda)) {
        for (const auto& addendum : entry.addenda) {
            const auto one = records::load_addendum(*all->folder_if_any(addendum.name));
            entry.signatures.push_back(signature_row(addendum.name, one.kind, one.signature));
        }
    }
}

json procedure_of(const records::OpenFolder& folder)
{
    if (!folder.has_file(records::name::procedure)) {
        return nullptr;
    }
    const auto procedure = folder.json(records::name::procedure);
    return {{"name", text(procedure, "/name")},
            {"revision", text(procedure, "/revision")},
            {"sha256", folder.sha256(records::name::procedure)}};
}

json kept_out_of(const json& record)
{
    if (text(record, "/run/disposition/unit") != "kept-out") {
        return nullptr;
    }
    return {{"reason", text(record, "/run/disposition/reason")}, {"loaner", text(record, "/run/disposition/loaner")}};
}

json instrument_of(const json& record)
{
    const auto& instrument = record.at("instrument");
    json row;
    for (const auto* column : {"name", "serial", "certificate", "calibrated_on", "calibration_due"}) {
        if (!instrument.is_null()) {
            row[column] = instrument.at(column);
        }
    }
    return row;
}

} // namespace

std::string in_utc(const std::string& rfc3339)
{
    const auto moment = QDateTime::fromString(QString::fromStdString(rfc3339), Qt::ISODate);
    return moment.toUTC().toString(Qt::ISODate).toStdString();
}

std::vector<Entry::Addendum> addenda_of(const fs::path& folder)
{
    std::vector<Entry::Addendum> addenda;
    const auto record = records::OpenFolder::at(folder);
    if (const auto all = record.folder_if_any(records::name::addenda)) {
        for (const auto& name : all->names()) {
            const auto one = all->folder_if_any(name);
            if (one && one->has_file(records::name::manifest)) {
                addenda.push_back({name, one->sha256(records::name::manifest)});
            }
        }
    }
    return addenda;
}

Entry read_entry(const fs::path& folder)
{
    const auto opened = records::OpenFolder::at(folder);
    const auto check = records::check_folder(opened);
    const auto wrong = records::why_not_intact(check);
    if (!check.sealed || !wrong.empty()) {
        throw InputError(folder.string(), wrong.empty() ? "is not sealed" : wrong, "a sealed record that is intact");
    }
    try {
        const auto record = opened.json(records::name::record);
        Entry entry;
        entry.verification = verification_of(record, opened, check);
        entry.unit = {{"asset", entry.verification.at("asset")},
                      {"serial", record.at("/unit/serial"_json_pointer)},
                      {"model", record.at("/unit/model"_json_pointer)}};
        entry.instrument = instrument_of(record);
        if (opened.has_file(records::name::instrument) && !entry.instrument.is_null()) {
            entry.instrument_checks = entry_of(trace::parse_instrument(opened.json(records::name::instrument))).checks;
        }
        put_figures(entry, record);
        for (const auto& name : approved_names()) {
            if (opened.has_file(name)) {
                entry.files[name] = opened.sha256(name);
            }
        }
        entry.procedure = procedure_of(opened);
        entry.kept_out = kept_out_of(record);
        entry.addenda = addenda_of(folder);
        put_signatures(entry, opened, check.signature);
        entry.folder = fs::absolute(folder).lexically_normal();
        if (!entry.folder.has_filename()) {
            entry.folder = entry.folder.parent_path();
        }
        return entry;
    } catch (const json::exception& error) {
        throw InputError((folder / records::name::record).string(), error.what(), "the record.json of a sealed record");
    }
}

} // namespace zeroline::unit_register
