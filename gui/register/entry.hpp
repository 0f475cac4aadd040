#pragma once

#include <nlohmann/json.hpp>

#include <filesystem>
#include <string>
#include <vector>

namespace zeroline::unit_register {

/// What the register keeps of a sealed record: rows of its tables, by column.
struct Entry {
    struct Addendum {
        std::string name, manifest_sha256;
    };
    nlohmann::json unit, instrument; ///< instrument: null where the record has none
    nlohmann::json verification;
    nlohmann::json procedure; ///< that the run went by, without the record's number; null where it has none
    nlohmann::json kept_out;  ///< why its unit is kept out of use, and its loaner; null where it is not
    std::vector<nlohmann::json> signatures;        ///< of the record, then of each addendum; without its number
    std::vector<nlohmann::json> figures;           ///< one a judgement, in the record's order
    std::vector<nlohmann::json> instrument_checks; ///< one a point of the calibration that its instrument file states
    std::vector<Addendum> addenda;
    nlohmann::json files = nlohmann::json::object(); ///< SHA-256 of the files it was made by (approved.hpp), by name
    std::filesystem::path folder;                    ///< absolute

    [[nodiscard]] std::string record_number() const { return verification.at("record_number"); }
};

/// Reads the entry of a sealed record and checks files, manifest and seal (records::check_folder()); nothing is
/// computed again. Throws trace::InputError: not sealed, not intact, no record of this version.
[[nodiscard]] Entry read_entry(const std::filesystem::path& folder);

/// A moment (RFC 3339) in UTC, so that moments are in order as text.
[[nodiscard]] std::string in_utc(const std::string& rfc3339);

/// SHA-256 of each addendum's manifest, in the order of their names; those of a folder that cannot be read are left
/// out.
[[nodiscard]] std::vector<Entry::Addendum> addenda_of(const std::filesystem::path& folder);

} // namespace zeroline::unit_register
