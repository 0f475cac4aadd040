#pragma once

// A small sealed record, made in a temporary folder from a trace that is drawn by hand.

#include "gui/records/capture_journal.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/sealing.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

namespace zeroline::records {

/// 100 readings a second: rest, `cycles` cycles of 1 s at +40 and -40 cmH2O with 1 s between, rest; small ripple.
inline std::string drawn_trace(int cycles = 7)
{
    std::string text = "time_s,pressure_cmH2O\n";
    int row = 0;
    double level = 0.0;
    const auto hold = [&](double to, int rows) {
        for (int i = 0; i < rows; ++i, ++row) {
            constexpr double ramp_rows = 8.0;
            const double share = std::min(1.0, (i + 1) / ramp_rows);
            const double value = level + (to - level) * share + 0.02 * std::sin(0.7 * row);
            text += std::to_string(row / 100.0).substr(0, 6) + "," + std::to_string(value).substr(0, 8) + "\n";
        }
        level = to;
    };
    hold(0.0, 600);
    for (int i = 0; i < cycles; ++i) {
        hold(40.0, 100);
        hold(-40.0, 100);
        hold(0.0, 100);
    }
    hold(0.0, 600);
    return text;
}

class SealedRecordTest : public testing::Test {
protected:
    /// A FOLDER.part with everything a record needs but record.json.
    [[nodiscard]] RecordFolder unfinished(const std::string& name) const
    {
        auto part = RecordFolder::begin(here_ / name);
        const auto demonstration = std::filesystem::path(ZEROLINE_SOURCE_DIR) / "fixtures" / "demonstration";
        auto order = load_json(demonstration / "order.json");
        auto& day = order["prescription"]["presets"][0];
        day["insufflation"]["duration"] = day["exsufflation"]["duration"] = day["pause"]["duration"] = 1.0;
        part.put(name::order, order.dump(2) + "\n");
        part.put(name::instrument, read_file(demonstration / "instrument.json"));
        part.put(name::bench, load_bench(demonstration / "bench.json").text);
        part.put(name::run, R"({
  "schema": "zeroline/run/1", "operator": "operator 3", "place": "workshop", "began": "2026-11-25T09:12:04+01:00",
  "spans": [{"what": "zero-before", "from_s": 0, "to_s": 5},
            {"what": "automatic", "preset": "day", "from_s": 5.5, "to_s": 28},
            {"what": "zero-after", "from_s": 29, "to_s": 32.5}],
  "confirmed": ["no-patient-connected", "outlet-blocked", "trigger-off"], "restored": true, "origin": "captured-here",
  "displayed": [{"preset": "day", "insufflation": 40, "exsufflation": -40, "shows": "live"}]
}
)");
        part.put(name::trace, drawn_trace());
        return part;
    }

    [[nodiscard]] SealRequest request() const
    {
        return {{"Operator Three", "operator", "performed the verification", "2026-11-25T09:15:00+01:00"},
                here_ / "keys" / "bench.key",
                {},
                {}};
    }

    /// Writes the journal that a capture of just these files would have left.
    static void journal(const RecordFolder& part, const SigningKey& key)
    {
        CaptureJournal journal(part, key, {verification::Origin::captured_here, "2026-11-25T09:12:04+01:00"});
        EXPECT_EQ(journal.trace_grew(read_file(part.file(name::trace))), "");
        journal.log(load_json(part.file(name::run)));
        journal.end("completed");
    }

    [[nodiscard]] static Sealing sealed(const RecordFolder& part, const SealRequest& request)
    {
        if (!std::filesystem::exists(part.file(name::journal))) {
            journal(part, SigningKey::load_or_make(request.key_file));
        }
        const auto evidence = load_record_evidence(part.part());
        return seal_and_rename(part, evidence, assess(evidence), request);
    }

    /// A sealed record called `name`.
    [[nodiscard]] std::filesystem::path record(const std::string& name) const
    {
        const auto sealing = sealed(unfinished(name), request());
        EXPECT_THAT(sealing.missing, testing::IsEmpty());
        return sealing.folder;
    }

    TemporaryFolder here_;
};

} // namespace zeroline::records
