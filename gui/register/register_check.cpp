#include "gui/register/unit_register.hpp"

#include "acquisition/trace/input_error.hpp"
#include "analysis/all_cores.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/json_file.hpp"

#include <map>

namespace zeroline::unit_register {

namespace {

/// What is wrong with the folder of one record; empty: nothing.
std::string trouble_of(const std::string& folder, const std::string& manifest_sha256,
                       const std::vector<std::string>& addenda)
{
    try {
        const auto entry = read_entry(folder);
        if (entry.verification.at("manifest_sha256") != manifest_sha256) {
            return folder + ": its manifest is not the one that was registered: signed again, or another record";
        }
        for (const auto& body : addenda) {
            bool there = false;
            for (const auto& one : entry.addenda) {
                there = there || Value{{"name", one.name}, {"manifest_sha256", one.manifest_sha256}}.dump() == body;
            }
            if (!there) {
                return folder + ": an addendum that was registered is gone or changed";
            }
        }
        return {};
    } catch (const trace::InputError& error) {
        return error.what();
    }
}

} // namespace

void UnitRegister::check_chain(Checked& checked) const
{
    std::string before;
    std::int64_t number = 0;
    for (const auto& event : database_.run(
             "SELECT number, time, kind, record_number, body, before_sha256, sha256 FROM event ORDER BY number")) {
        ++checked.events;
        const auto shown = "event " + std::to_string(event["number"].get<std::int64_t>());
        if (event["number"] != ++number || event["before_sha256"] != before) {
            checked.troubles.push_back(shown + ": does not follow the event before; one was taken out or put in");
            number = event["number"].get<std::int64_t>();
        }
        if (event["sha256"] != event_sha256(event)) {
            checked.troubles.push_back(shown + ": was changed after it was written");
        }
        before = event["sha256"].get<std::string>();
    }
}

void UnitRegister::check_rows(Checked& checked) const
{
    std::map<std::string, std::vector<Value>> figures;
    for (const auto& row : database_.run("SELECT * FROM figure ORDER BY record_number, place")) {
        figures[row["record_number"].get<std::string>()].emplace_back(row);
    }
    std::map<std::string, std::string> said;
    for (const auto& row : database_.run("SELECT record_number, body FROM event WHERE kind = 'record'")) {
        said[row["record_number"].get<std::string>()] = row["body"].get<std::string>();
    }
    for (const auto& row : database_.run("SELECT * FROM verification")) {
        ++checked.records;
        const auto number = row["record_number"].get<std::string>();
        if (body_of(Value(row), figures[number]) != said[number]) {
            checked.troubles.push_back("record " + number + ": its row is not what was registered");
        }
        said.erase(number);
    }
    for (const auto& [number, body] : said) {
        checked.troubles.push_back("record " + number + ": was registered and its row is gone");
    }
}

void UnitRegister::check_folders(Checked& checked) const
{
    std::map<std::string, std::vector<std::string>> addenda;
    for (const auto& row : database_.run("SELECT record_number, body FROM event WHERE kind = 'addendum'")) {
        addenda[row["record_number"].get<std::string>()].push_back(row["body"].get<std::string>());
    }
    const auto rows = database_.run("SELECT v.record_number, v.manifest_sha256, f.path FROM verification v LEFT JOIN "
                                    "folder f ON f.record_number = v.record_number ORDER BY v.record_number");
    std::vector<std::string> troubles(rows.size());
    on_all_cores(rows.size(), [&](std::size_t i) {
        const auto known = addenda.find(rows[i]["record_number"].get<std::string>());
        troubles[i] =
            rows[i]["path"].is_null()
                ? "record " + rows[i]["record_number"].get<std::string>() + ": nobody knows where it lies"
                : trouble_of(rows[i]["path"].get<std::string>(), rows[i]["manifest_sha256"].get<std::string>(),
                             known == addenda.end() ? std::vector<std::string>{} : known->second);
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
    check_folders(checked);
    return checked;
}

} // namespace zeroline::unit_register
