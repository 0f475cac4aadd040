#pragma once

#include "gui/records/signing_key.hpp"
#include "gui/register/database.hpp"
#include "gui/register/entry.hpp"
#include "gui/register/instrument_entry.hpp"

#include <cstdint>
#include <filesystem>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace zeroline::unit_register {

/// What add() did.
enum class Added {
    record,  ///< it was not there
    addenda, ///< it was; additions to it were not
    nothing  ///< all of it was there
};

/// A part of a list: rows whose asset, serial number or model (name of an instrument) holds `search`, or the number or
/// order of a record of theirs, small and capital letters alike; empty: all. Of these `count` from the `first` on,
/// counted from 0.
struct Part {
    std::string search = {};
    std::int64_t first = 0;
    std::int64_t count = std::numeric_limits<std::int64_t>::max();
};

/// What check() found.
struct Checked {
    std::size_t records = 0, events = 0;
    std::size_t unsigned_events = 0;              ///< of a program that did not sign them yet
    std::map<std::string, std::size_t> signed_by; ///< events, by the public key that signed them
    std::vector<std::string> troubles;            ///< a line each; empty: all is as it was registered
    std::vector<std::string> remarks;             ///< worth knowing, nothing wrong: a clock that ran back
};

/// Units, instruments and verifications over the years. It only grows: rows of verifications, figures and events are
/// never changed or removed; each event holds the SHA-256 of the one before, and is signed by the bench that wrote it.
/// Use it in the thread that opened it.
class UnitRegister {
public:
    /// Opens or makes it: an SQLite file, or the URL of a PostgreSQL server (Database::open()). Throws
    /// trace::InputError; NotUsableNow where a later try may do.
    [[nodiscard]] static UnitRegister open(const std::string& place);

    [[nodiscard]] const std::string& place() const noexcept { return database_.shown(); }

    /// Registers a record, whole or not at all; what is there already is not doubled. Throws trace::InputError where a
    /// record of this number is there with another manifest: signed again, or another record.
    Added add(const Entry& entry, const records::SigningKey& key) const;
    /// Registers an instrument with its checks. False where all of them were there.
    bool add_instrument(const InstrumentEntry& entry, const records::SigningKey& key) const;
    /// Adds units that nobody has verified yet, all or none: objects with asset, serial and model. Returns how many
    /// were not there; those that were stay as they are. Throws trace::InputError.
    std::size_t add_units(const std::vector<Value>& units, const records::SigningKey& key) const;
    /// Keeps that a file is approved (approved.hpp): an object with kind, name, sha256 and by.
    void approve(const Value& file, const records::SigningKey& key) const;
    /// Where a record of this number was seen last; none where it is not registered.
    [[nodiscard]] std::optional<std::filesystem::path> folder_of(const std::string& record_number) const;

    // Each list in the order in which it is read; columns as their names say, figures in their units.

    /// Every unit with its last verification and the day on which it falls due.
    [[nodiscard]] Rows units(const Part& part = {}) const;
    /// The units that fall due by `last_day` (ISO 8601), the longest overdue first: `state` is due, overdue, not
    /// released (its last check here was no pass), never checked here, or no interval set. A unit that was only
    /// simulated is not listed.
    [[nodiscard]] Rows due(const std::string& today, const std::string& last_day, const Part& part = {}) const;
    /// Instruments that registered records were made with, the next calibration due first: as of their last record.
    [[nodiscard]] Rows instruments(const Part& part = {}) const;
    /// Those with this serial number or name. Throws trace::InputError where there is none.
    [[nodiscard]] Rows instruments_called(const std::string& serial_or_name) const;
    /// One unit, as units() has it. Throws trace::InputError where it is not known.
    [[nodiscard]] Rows unit(const std::string& asset) const;
    /// Verifications of a unit, the oldest first. Throws trace::InputError where the unit is not known.
    [[nodiscard]] Rows history(const std::string& asset) const;
    /// The last verification of a unit, as history() has it: of that origin, and begun before that moment (RFC 3339);
    /// empty texts ask for neither. An empty array where there is none.
    [[nodiscard]] Rows last_of(const std::string& asset, const std::string& origin = {},
                               const std::string& before = {}) const;
    /// Figures of a unit's verifications that were captured here, the oldest first.
    [[nodiscard]] Rows figures_of(const std::string& asset) const;
    /// What an instrument showed at its calibrations, the oldest first: columns as figures_of() has them, compared with
    /// the reference; limits: what was indicated plus and minus the drift that its uncertainty allows for, null where
    /// it names none.
    [[nodiscard]] Rows calibrations_of(const std::string& name, const std::string& serial) const;
    /// The same of a second gauge held beside it, which it is compared with; limits: those of the check. Nothing of a
    /// simulated one.
    [[nodiscard]] Rows gauge_checks_of(const std::string& name, const std::string& serial) const;
    /// Mean pressures with their targets and uncertainties that were captured here since a day, against what was set
    /// where the record has that, the oldest first.
    [[nodiscard]] Rows pressures_since(const std::string& day) const;
    /// Verifications that an instrument (serial number or name) was used for, since a day, the newest first. Throws
    /// trace::InputError where it is not known.
    [[nodiscard]] Rows touched_by(const std::string& instrument, const std::string& since, const Part& part = {}) const;
    /// Every verification with every figure, a row a figure.
    [[nodiscard]] Rows everything() const;
    /// Files that were approved, the oldest first.
    [[nodiscard]] Rows approved() const;
    /// Number, moment and SHA-256 of the last event; an empty array where there is none.
    [[nodiscard]] Rows last_event() const;
    /// Whether an event of this number and SHA-256 is there.
    [[nodiscard]] bool has_event(std::int64_t number, const std::string& sha256) const;
    /// Folders in which registered records lie, without the records' own names.
    [[nodiscard]] std::vector<std::filesystem::path> places() const;

    /// Proves the chain of events, that every row is what its event says, and that every record still has the manifest
    /// (and the addenda) it was registered with, and is intact.
    [[nodiscard]] Checked check() const;
    /// Writes a copy into a new file, which is a register of its own; of a server too. Throws trace::InputError;
    /// nothing is overwritten.
    void backup(const std::filesystem::path& file) const;

private:
    explicit UnitRegister(Database database) : database_(std::move(database)) {}
    /// `record_number` is null where it is of no record.
    void add_event(const std::string& kind, const Value& record_number, const std::string& body,
                   const records::SigningKey& key) const;
    [[nodiscard]] bool add_addenda(const Entry& entry, const records::SigningKey& key) const;
    void add_record(const Entry& entry, const records::SigningKey& key) const;
    [[nodiscard]] bool add_checks(const std::vector<Value>& checks, const records::SigningKey& key) const;
    void check_chain(Checked& checked) const;
    void check_rows(Checked& checked) const;
    void check_instruments(Checked& checked) const;
    void check_folders(Checked& checked) const;

    Database database_;
};

/// What an event says of a record: its rows and files, as text that is always the same.
[[nodiscard]] std::string body_of(const Entry& entry);
/// SHA-256 that an event bears and that is signed: of everything it says, the key that signs, and the event before.
[[nodiscard]] std::string event_sha256(const Rows& event);

} // namespace zeroline::unit_register
