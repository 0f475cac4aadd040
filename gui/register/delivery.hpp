#pragma once

#include "gui/records/signing_key.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace zeroline::unit_register {

// A record is registered whatever breaks off: before it is sealed, a note of its folder is put beside the bench's own
// register.db (also where the register is on a server); once it is registered, the note goes. What the register could
// not take, or a program that was killed left behind, is delivered by the next that saves or starts, in the order in
// which it was noted. A record that the register refuses for good is told once, and its note is put aside.

/// Where a bench's records go.
struct Bench {
    std::optional<std::filesystem::path> file; ///< its bench file
    std::string other_register = {};           ///< as given_register() returns it; empty: the one of the bench
};

/// A register that somebody named for this once, --register: a file, made absolute, or the URL of a server; an empty
/// text stays empty. Throws trace::InputError: no place that can be, or a password in the URL.
[[nodiscard]] std::string given_register(const std::string& place);

/// The file of a bench's own register, beside its key. Throws trace::InputError.
[[nodiscard]] std::filesystem::path register_file(const std::optional<std::filesystem::path>& bench_file);

/// The register that saved records of a bench go to: other_register, else `register` of its bench file, a file or the
/// URL of a server; else register_file(). Throws trace::InputError: no place that can be, or a password in the URL.
[[nodiscard]] std::string register_place(const Bench& bench);

/// Notes that a record will be sealed as `folder` (or that checks of an instrument stand in that file,
/// read_instrument_entry()), and for which register. Never throws: that it could not be noted
/// stops no save.
void expect_record(const Bench& bench, const std::filesystem::path& folder);

/// Registers every record that was noted and is sealed, each where it was to go, and the one just saved, noted or not;
/// `unlock` gives the bench's key, which is else read from its file. Returns a line where a register cannot be used now
/// (the notes stay), and one for each record that it refused, each file that is not an approved one, and a clock that
/// ran back. Throws nothing: no save is undone by it. Does not open the register where nothing is to be delivered.
[[nodiscard]] std::vector<std::string> deliver(const Bench& bench, const std::filesystem::path& saved = {},
                                               const records::Unlock& unlock = {});

/// A record that the register refused, and why.
struct Refused {
    std::filesystem::path record;
    std::string reason;
};
/// Those that were put aside and are not registered since.
[[nodiscard]] std::vector<Refused> refused_records(const std::filesystem::path& register_file);
/// Forgets that a record was refused: it is registered now.
void forget_refusal(const std::filesystem::path& register_file, const std::filesystem::path& record);

/// Runs that nobody has sealed yet: each FOLDER.part that was noted, or lies with a trace in one of `places`; each
/// once, by their paths.
[[nodiscard]] std::vector<std::filesystem::path> unsigned_runs(const std::filesystem::path& register_file,
                                                               const std::vector<std::filesystem::path>& places);

} // namespace zeroline::unit_register
