#include "gui/register/unit_register.hpp"

#include "acquisition/trace/input_error.hpp"
#include "analysis/all_cores.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/signing_key.hpp"
#include "gui/register/unit_standing.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace zeroline::unit_register {

namespace {

/// What is registered of one record beside its figures.
struct Registered {
    std::string manifest_sha256;
    std::vector<std::string> addenda;
    std::vector<Value> signatures;
};

/// What is wrong with the folder of one record; empty: nothing.
std::string trouble_of(const std::string& folder, const Registered& registered)
{
    try {
        const auto entry = read_entry(folder);
        if (entry.verification.at("manifest_sha256") != registered.manifest_sha256) {
            return folder + ": its manifest is not the one that was registered: signed again, or another record";
        }
        for (const auto& body : registered.addenda) {
            bool there = false;
            for (const auto& one : entry.addenda) {
                there = there || Value{{"name", one.name}, {"manifest_sha256", one.manifest_sha256}}.dump() == body;
            }
            if (!there) {
                return folder + ": an addendum that was registered is gone or changed";
            }
        }
        for (const auto& row : registered.signatures) {
            if (std::find(entry.signatures.begin(), entry.signatures.end(), row) == entry.signatures.end()) {
                return folder + ": the register holds a signature of " + row.at("signer").dump() +
                       " that is not in the record";
            }
        }
        return {};
    } catch (const trace::InputError& error) {
        return error.what();
    }
}

/// What stands in the tables of one record.
struct RowsOfRecord {
    Value procedure, kept_out;
    std::vector<Value> figures;
};

/// Whether an event's body says just these rows.
bool is_said(const std::string& body, const Value& verification, const RowsOfRecord& rows)
{
    if (body.empty()) {
        return false;
    }
    const auto said = records::parse_json(body);
    return said.at("verification") == verification && said.at("figures") == Value(rows.figures) &&
           said.value("procedure", Value()) == rows.procedure && said.value("kept_out", Value()) == rows.kept_out;
}

/// Signatures take time: each on a core.
void check_signatures(const Rows& events, Checked& checked)
{
    std::vector<char> wrong(events.size());
    on_all_cores(events.size(), [&](std::size_t i) {
        const auto key = records::from_base64(events[i]["public_key"].get_ref<const std::string&>()).value_or("");
        const auto signature = records::from_base64(events[i]["signature"].get_ref<const std::string&>()).value_or("");
        wrong[i] =
            !key.empty() && !records::verifies(key, events[i]["sha256"].get_ref<const std::string&>(), signature);
    });
    bool signing = false;
    for (std::size_t i = 0; i < events.size(); ++i) {
        const auto key = records::from_base64(events[i]["public_key"].get_ref<const std::string&>()).value_or("");
        if (wrong[i] != 0 || (key.empty() && signing)) {
            checked.troubles.push_back("event " + events[i]["number"].dump() +
                                       (key.empty() ? ": is not signed" : ": its signature is not of its key"));
        }
        signing = signing || !key.empty();
        if (key.empty()) {
            ++checked.unsigned_events;
        } else {
            ++checked.signed_by[key];
        }
    }
}

void remark_on_clock(const Rows& event, std::string& latest, Checked& checked)
{
    const auto time = in_utc(event["time"].get<std::string>());
    if (time < latest) {
        checked.remarks.push_back("event " + event["number"].dump() + ": written at " +
                                  event["time"].get<std::string>() + ", before the one before it: a clock ran back");
    }
    latest = std::max(latest, time);
}

} // namespace

void UnitRegister::check_chain(Checked& checked) const
{
    std::string before, latest;
    std::int64_t number = 0;
    std::map<std::string, std::string> own_before; // by the key of a bench
    const auto events = database_.run("SELECT number, time, kind, record_number, body, before_sha256, "
                                      "own_before_sha256, public_key, sha256, signature FROM event ORDER BY number");
    checked.events = events.size();
    for (const auto& event : events) {
        const auto shown = "event " + event["number"].dump();
        if (event["number"] != ++number || event["before_sha256"] != before) {
            checked.troubles.push_back(shown + ": does not follow the event before; one was taken out or put in");
            number = event["number"].get<std::int64_t>();
        }
        if (event["sha256"] != event_sha256(event)) {
            checked.troubles.push_back(shown + ": was changed after it was written");
        }
        auto& own = own_before[event["public_key"].get<std::string>()];
        if (!event["own_before_sha256"].is_null() && event["own_before_sha256"] != own) {
            checked.troubles.push_back(shown + ": does not follow the event that its bench wrote before");
        }
        before = own = event["sha256"].get<std::string>();
        remark_on_clock(event, latest, checked);
    }
    check_signatures(events, checked);
}

void UnitRegister::check_rows(Checked& checked) const
{
    std::map<std::string, RowsOfRecord> rows;
    for (const auto& row : database_.run("SELECT * FROM figure ORDER BY record_number, place")) {
        rows[row["record_number"].get<std::string>()].figures.emplace_back(row);
    }
    for (const auto& row : database_.run("SELECT record_number, name, revision, sha256 FROM procedure")) {
        auto& procedure = rows[row["record_number"].get<std::string>()].procedure = Value(row);
        procedure.erase("record_number");
    }
    for (const auto& row : database_.run("SELECT record_number, reason, loaner FROM kept_out")) {
        auto& kept_out = rows[row["record_number"].get<std::string>()].kept_out = Value(row);
        kept_out.erase("record_number");
    }
    std::map<std::string, std::string> said;
    for (const auto& row : database_.run("SELECT record_number, body FROM event WHERE kind = 'record'")) {
        said[row["record_number"].get<std::string>()] = row["body"].get<std::string>();
    }
    for (const auto& row : database_.run("SELECT * FROM verification")) {
        ++checked.records;
        const auto number = row["record_number"].get<std::string>();
        if (!is_said(said[number], Value(row), rows[number])) {
            checked.troubles.push_back("record " + number + ": its row is not what was registered");
        }
        said.erase(number);
    }
    for (const auto& [number, body] : said) {
        checked.troubles.push_back("record " + number + ": was registered and its row is gone");
    }
    for (const auto& asset : with_another_standing(database_)) {
        checked.troubles.push_back("unit " + asset + ": its row is not what its records say");
    }
}

/// Checks of instruments that came in by a program that wrote no event of them are kept by the triggers alone.
void UnitRegister::check_instruments(Checked& checked) const
{
    std::set<std::string> there;
    for (const auto& row : database_.run("SELECT * FROM instrument_check WHERE kind IS NOT NULL")) {
        there.insert(Value(row).dump());
    }
    for (const auto& event : database_.run("SELECT number, body FROM event WHERE kind = 'instrument checks'")) {
        for (const auto& check : records::parse_json(event["body"].get_ref<const std::string&>())) {
            if (there.erase(check.dump()) == 0) {
                checked.troubles.push_back("event " + event["number"].dump() + ": a check of " +
                                           check.at("instrument_name").dump() + " is not what was registered");
            }
        }
    }
    for (const auto& check : there) {
        checked.troubles.push_back("a check of an instrument that nobody registered: " + check);
    }
}

void UnitRegister::check_folders(Checked& checked) const
{
    std::map<std::string, Registered> registered;
    for (const auto& row : database_.run("SELECT record_number, body FROM event WHERE kind = 'addendum'")) {
        registered[row["record_number"].get<std::string>()].addenda.push_back(row["body"].get<std::string>());
    }
    for (const auto& row : database_.run("SELECT * FROM signature ORDER BY record_number, addendum")) {
        auto signature = Value(row);
        signature.erase("record_number");
        registered[row["record_number"].get<std::string>()].signatures.push_back(std::move(signature));
    }
    const auto rows = database_.run("SELECT v.record_number, v.manifest_sha256, f.path FROM verification v LEFT JOIN "
                                    "folder f ON f.record_number = v.record_number ORDER BY v.record_number");
    for (const auto& row : rows) {
        registered[row["record_number"].get<std::string>()].manifest_sha256 = row["manifest_sha256"].get<std::string>();
    }
    std::vector<std::string> troubles(rows.size());
    on_all_cores(rows.size(), [&](std::size_t i) {
        const auto number = rows[i]["record_number"].get<std::string>();
        troubles[i] = rows[i]["path"].is_null() ? "record " + number + ": nobody knows where it lies"
                                                : trouble_of(rows[i]["path"].get<std::string>(), registered.at(number));
    });
    for (auto& trouble : troubles) {
        if (!trouble.empty()) {
            checked.troubles.push_back(std::move(trouble));
        }
    }
}

Checked UnitRegister::check() const
{
    Checked checked;
    checked.troubles = database_.damage();
    check_chain(checked);
    check_rows(checked);
    check_instruments(checked);
    check_folders(checked);
    return checked;
}

} // namespace zeroline::unit_register
