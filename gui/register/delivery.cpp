#include "gui/register/delivery.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/open_file.hpp"
#include "gui/records/record_folder.hpp"
#include "gui/records/signing_key.hpp"
#include "gui/register/approved.hpp"
#include "gui/register/last_event.hpp"
#include "gui/register/schema.hpp"
#include "gui/register/server_url.hpp"
#include "gui/register/unit_register.hpp"

#include <algorithm>
#include <iterator>
#include <set>

namespace zeroline::unit_register {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

struct Note {
    fs::path file, record;
    std::string other_register; ///< as in Bench
};

fs::path notes_beside(const fs::path& register_file) { return fs::path(register_file).concat(".waiting"); }

fs::path part_of(const fs::path& record) { return fs::path(record).concat(".part"); }

/// The first line is the record, a second one the register it is for, if that is not the bench's.
Note read_note(const fs::path& file)
{
    const auto text = records::read_file(file);
    const auto end = text.find('\n');
    return {file, text.substr(0, end), end == std::string::npos ? std::string() : text.substr(end + 1)};
}

/// In the order in which they were written.
std::vector<Note> notes(const fs::path& register_file)
{
    std::vector<std::pair<fs::file_time_type, Note>> found;
    std::error_code none;
    for (const auto& file : fs::directory_iterator(notes_beside(register_file), none)) {
        if (file.path().extension() == ".note") {
            found.push_back({file.last_write_time(none), read_note(file.path())});
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

fs::path refusal_of(const fs::path& register_file, const fs::path& record)
{
    return notes_beside(register_file) / (records::sha256(record.string()) + ".refused");
}

/// What stays out is told once; the file keeps it for refused_records().
std::string put_aside(const fs::path& register_file, const Note& note, const std::string& reason)
{
    fs::create_directories(notes_beside(register_file));
    const auto refusal = refusal_of(register_file, note.record);
    std::error_code none;
    fs::remove(refusal, none);
    records::write_file_whole(refusal, note.record.string() + '\n' + reason);
    if (!note.file.empty()) {
        fs::remove(note.file);
    }
    return "not registered: " + reason + " (once that is mended: zeroline register import)";
}

/// What a note that was cut off while it was written left behind. Its record, if it is sealed, was delivered as saved.
void sweep(const fs::path& register_file)
{
    std::error_code none;
    for (const auto& file : fs::directory_iterator(notes_beside(register_file), none)) {
        if (records::is_neighbour(file.path().filename())) {
            fs::remove(file.path(), none);
        }
    }
}

/// The notes of records that are sealed, and the one just saved.
std::vector<Note> to_deliver(const fs::path& register_file, const fs::path& saved, const std::string& other_register)
{
    sweep(register_file);
    auto waiting = notes(register_file);
    const auto is_saved = [&](const Note& note) { return note.record == saved; };
    if (!saved.empty() && std::none_of(waiting.begin(), waiting.end(), is_saved)) {
        waiting.push_back({{}, saved, other_register});
    }
    std::erase_if(waiting, [](const Note& note) {
        std::error_code none;
        return !fs::exists(note.record, none);
    });
    return waiting;
}

/// A record folder, or the checks of an instrument.
void take_in(const fs::path& record, const UnitRegister& to, const records::SigningKey& key,
             std::vector<std::string>& lines)
{
    if (is_checks_file(record)) {
        (void)to.add_instrument(read_instrument_entry(record), key);
        return;
    }
    const auto entry = read_entry(record);
    if (to.add(entry, key) == Added::record) {
        const auto remarks = not_approved(entry, to);
        lines.insert(lines.end(), remarks.begin(), remarks.end());
    }
}

/// Leaves in `waiting` what is not delivered yet. Throws NotUsableNow.
void deliver_all(std::vector<Note>& waiting, const fs::path& register_file, const UnitRegister& to,
                 const records::SigningKey& key, std::vector<std::string>& lines)
{
    while (!waiting.empty()) {
        const auto& note = waiting.front();
        try {
            take_in(note.record, to, key, lines);
            if (!note.file.empty()) {
                fs::remove(note.file);
            }
        } catch (const NotUsableNow&) {
            throw;
        } catch (const InputError& error) {
            lines.push_back(put_aside(register_file, note, error.what()));
        }
        waiting.erase(waiting.begin());
    }
}

/// To one register. What this bench saw of another than its own is nobody's memory.
void open_and_deliver(std::vector<Note>& waiting, const Bench& bench, const records::Unlock& unlock,
                      std::vector<std::string>& lines)
{
    const auto beside = register_file(bench.file);
    const auto to = UnitRegister::open(register_place(bench));
    const auto key = unlock ? unlock() : records::SigningKey::load(records::key_file(bench.file));
    if (const auto line = clock_that_ran_back(to, moment_now()); !line.empty()) {
        lines.push_back(line);
    }
    deliver_all(waiting, beside, to, key, lines);
    if (bench.other_register.empty()) {
        remember_last_event(beside, to);
    }
}

/// `register` of a bench file; it stays at home and is no part of a record, so only this part reads it.
std::string written_place(const fs::path& bench_file)
{
    const auto tree = records::load_json(bench_file);
    const auto place = tree.find("register");
    if (place == tree.end()) {
        return {};
    }
    if (!place->is_string()) {
        throw InputError(bench_file.string() + ": /register", place->dump(), "text: a file or a postgresql:// URL");
    }
    return *place;
}

std::string how_many_wait(std::size_t records)
{
    return records > 1 ? " (" + std::to_string(records) + " records wait)" : std::string();
}

/// Those for the register of the first one; the others stay behind.
std::vector<Note> take_first_batch(std::vector<Note>& waiting)
{
    std::vector<Note> batch;
    const auto where = waiting.front().other_register;
    const auto is_of_batch = [&](const Note& note) { return note.other_register == where; };
    std::copy_if(waiting.begin(), waiting.end(), std::back_inserter(batch), is_of_batch);
    std::erase_if(waiting, is_of_batch);
    return batch;
}

void deliver_batch(std::vector<Note> batch, const std::optional<fs::path>& bench_file, const records::Unlock& unlock,
                   std::vector<std::string>& lines)
{
    try {
        open_and_deliver(batch, {bench_file, batch.front().other_register}, unlock, lines);
    } catch (const std::exception& error) {
        lines.push_back("not registered yet: " + std::string(error.what()) + how_many_wait(batch.size()));
    }
}

/// A place as somebody wrote it; `where` says where. A file is below `folder`.
std::string checked_place(const std::string& written, const fs::path& folder, const std::string& where)
{
    if (is_server_url(written)) {
        (void)connection_settings(written); // says what is wrong with it
        return written;
    }
    if (written.find("://") != std::string::npos) {
        throw InputError(where, "'" + written + "'", "a file, or the URL of a PostgreSQL server: postgresql://...");
    }
    return folder / written; // an absolute path replaces what stands in front of it
}

} // namespace

fs::path register_file(const std::optional<fs::path>& bench_file)
{
    return records::key_file(bench_file).parent_path() / "register.db";
}

std::string given_register(const std::string& place)
{
    return place.empty() ? place : checked_place(place, fs::current_path(), "--register");
}

void expect_record(const Bench& bench, const fs::path& folder)
{
    try {
        const auto record = fs::absolute(folder).lexically_normal().string();
        const auto place = notes_beside(register_file(bench.file));
        fs::create_directories(place);
        records::write_file_whole(place / (records::sha256(record) + ".note"),
                                  record + (bench.other_register.empty() ? "" : "\n" + bench.other_register));
    } catch (const std::exception&) { // said by deliver(), if the record is not registered
    }
}

std::string register_place(const Bench& bench)
{
    if (!bench.other_register.empty()) {
        return bench.other_register;
    }
    auto written = bench.file ? written_place(*bench.file) : std::string();
    const std::string file_scheme = "sqlite:"; // what older bench files may have
    written = written.starts_with(file_scheme) ? written.substr(file_scheme.size()) : written;
    return written.empty() ? register_file(bench.file).string()
                           : checked_place(written, bench.file->parent_path(), bench.file->string() + ": /register");
}

std::vector<std::string> deliver(const Bench& bench, const fs::path& saved, const records::Unlock& unlock)
{
    std::vector<std::string> lines;
    try {
        (void)register_place(bench); // says what is wrong with it, whether or not something waits
        auto waiting = to_deliver(register_file(bench.file),
                                  saved.empty() ? saved : fs::absolute(saved).lexically_normal(), bench.other_register);
        while (!waiting.empty()) {
            deliver_batch(take_first_batch(waiting), bench.file, unlock, lines);
        }
    } catch (const std::exception& error) {
        lines.push_back("not registered yet: " + std::string(error.what()));
    }
    return lines;
}

std::vector<Refused> refused_records(const fs::path& register_file)
{
    std::vector<Refused> all;
    std::error_code none;
    for (const auto& file : fs::directory_iterator(notes_beside(register_file), none)) {
        if (file.path().extension() == ".refused") {
            const auto text = records::read_file(file.path());
            const auto end = text.find('\n');
            all.push_back({text.substr(0, end), end == std::string::npos ? std::string() : text.substr(end + 1)});
        }
    }
    std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.record < b.record; });
    return all;
}

void forget_refusal(const fs::path& register_file, const fs::path& record)
{
    std::error_code none;
    fs::remove(refusal_of(register_file, record), none);
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
