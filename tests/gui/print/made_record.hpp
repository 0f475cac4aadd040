#pragma once

#include "gui/records/manifest.hpp"
#include "tests/gui/records/trouble.hpp"

#include <nlohmann/json.hpp>

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace zeroline::print {

/// What a record for a page is made from. Change what a test needs, then make_record().
struct MadeRecord {
    nlohmann::json order, run, instrument, bench;
    double insufflation = 40.0, exsufflation = -40.0, residual = 0.0; ///< as delivered, cmH2O
    bool with_run = true;
};

/// The demonstration's order, instrument and bench, a run that was captured here, a unit that delivers what it should.
[[nodiscard]] MadeRecord healthy();

/// The same for several presets, with names as long as they get.
[[nodiscard]] MadeRecord with_three_presets();

/// Writes and assesses a record folder without a seal.
void make_record(const MadeRecord& made, const std::filesystem::path& folder);

/// The same with a seal: by the key in `key_file`, which is made where there is none.
void seal_record(const MadeRecord& made, const std::filesystem::path& folder, const std::filesystem::path& key_file,
                 const records::Signature& signature = {"Jane Example", "operator", "performed the verification",
                                                        "2026-08-31T09:30:00+02:00"});

/// Changes record.json of a folder.
void change_record(const std::filesystem::path& folder, const std::function<void(nlohmann::ordered_json&)>& change);

using records::trouble;

} // namespace zeroline::print
