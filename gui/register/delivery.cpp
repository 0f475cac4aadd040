#include "gui/register/delivery.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/record_folder.hpp"
#include "gui/records/signing_key.hpp"
#include "gui/register/unit_register.hpp"

#include <algorithm>
#include <set>

namespace zeroline::unit_register {

namespace fs = std::filesystem;

namespace {

struct Note {
    fs::path file, record;
};

fs::path notes_beside(const fs::path& register_file) { return fs::path(register_file).concat(".waiting"); }

fs::path part_of(const fs::path& record) { return fs::path(record).concat(".part"); }

/// In the order in which they were written.
std::vector<Note> notes(const fs::path& register_file)
{
    std::vector<std::pair<fs::file_time_type, Note>> found;
    std::error_code none;
    for (const auto& file : fs::directory_iterator(notes_beside(register_file), none)) {
        if (file.path().extension() == ".note") {
            found.push_back({file.last_write_time(none), {file.path(), records::read_file(file.path())}});
        }
    }
    std::sort(found.begin(), found.end(), [](const auto& a, const auto& b) {
        return a.first != b.first ? a.first < b.first : a.second.file < b.second.file;
    });
    std::vector<Note> all;
    for (auto& [time, note] : found) {
        all.push_back(std::move(note));
    }
    return all;
}

void deliver_one(const Note& note, const UnitRegister& to, std::vector<std::string>& troubles)
{
    try {
        (void)to.add(read_entry(note.record));
        if (!note.file.empty()) {
            fs::remove(note.file);
        }
    } catch (const std::exception& error) {
        troubles.push_back("not registered yet: " + std::string(error.what()));
    }
}

void deliver_all(const fs::path& file, const fs::path& saved, std::vector<std::string>& troubles)
{
    auto waiting = notes(file);
    const auto is_saved = [&](const Note& note) { return note.record == saved; };
    if (!saved.empty() && std::none_of(waiting.begin(), waiting.end(), is_saved)) {
        waiting.push_back({{}, saved});
    }
    std::erase_if(waiting, [](const Note& note) {
        std::error_code none;
        return !fs::exists(note.record, none);
    });
    if (waiting.empty()) {
        return;
    }
    const auto to = UnitRegister::open(file);
    for (const auto& note : waiting) {
        deliver_one(note, to, troubles);
    }
}

} // namespace

fs::path register_file(const std::optional<fs::path>& bench_file)
{
    return records::key_file(bench_file).parent_path() / "register.db";
}

void expect_record(const std::optional<fs::path>& bench_file, const fs::path& folder)
{
    try {
        const auto record = fs::absolute(folder).lexically_normal().string();
        const auto place = notes_beside(register_file(bench_file));
        fs::create_directories(place);
        records::write_file_whole(place / (records::sha256(record) + ".note"), record);
    } catch (const std::exception&) { // said by deliver(), if the record is not registered
    }
}

std::vector<std::string> deliver(const std::optional<fs::path>& bench_file, const fs::path& saved)
{
    std::vector<std::string> troubles;
    try {
        deliver_all(register_file(bench_file), saved.empty() ? saved : fs::absolute(saved).lexically_normal(),
                    troubles);
    } catch (const std::exception& error) {
        troubles.push_back("not registered yet: " + std::string(error.what()));
    }
    return troubles;
}

std::vector<fs::path> unsigned_runs(const fs::path& register_file, const std::vector<fs::path>& places)
{
    std::set<fs::path> parts;
    std::error_code none;
    for (const auto& note : notes(register_file)) {
        if (fs::exists(part_of(note.record), none)) {
            parts.insert(part_of(note.record));
        }
    }
    for (const auto& place : places) {
        for (const auto& one : fs::directory_iterator(place, none)) {
            if (one.path().extension() == ".part" && fs::exists(one.path() / "trace.csv", none)) {
                parts.insert(fs::absolute(one.path()));
            }
        }
    }
    return {parts.begin(), parts.end()};
}

} // namespace zeroline::unit_register
