#pragma once

#include "gui/register/entry.hpp"

namespace zeroline::unit_register {

/// An entry that no folder stands behind.
inline Entry made_up(const std::string& number, const std::string& asset = "RC-0117",
                     const std::string& began = "2026-03-01T09:00:00Z")
{
    Entry entry;
    entry.unit = {{"asset", asset}, {"serial", "K4417"}, {"model", "unit A"}};
    entry.instrument = {{"name", "bench transducer 2"},
                        {"serial", "PT-3310"},
                        {"certificate", "CAL-771"},
                        {"calibrated_on", "2026-01-01"},
                        {"calibration_due", "2027-01-01"}};
    entry.verification = {{"record_number", number},
                          {"asset", asset},
                          {"instrument_name", "bench transducer 2"},
                          {"instrument_serial", "PT-3310"},
                          {"work_order", "WO-1"},
                          {"occasion", "periodic"},
                          {"day", began.substr(0, 10)},
                          {"began_utc", began},
                          {"verdict", "pass"},
                          {"unit_accuracy", "pass"},
                          {"critical", 0},
                          {"origin", "captured-here"},
                          {"signer", "Operator Three"},
                          {"signed", "2026-03-01T09:10:00+00:00"},
                          {"signing_key", "aa"},
                          {"manifest_sha256", "m-" + number},
                          {"next_due", "2027-03-01"}};
    entry.figures.push_back({{"record_number", number},
                             {"place", 0},
                             {"measurand", "insufflation-pressure"},
                             {"preset", "day"},
                             {"compared_with", "prescribed"},
                             {"unit", "cmH2O"},
                             {"target", 40.0},
                             {"lower_limit", 38.0},
                             {"upper_limit", nullptr},
                             {"mean", 40.1},
                             {"mean_uncertainty", 0.2},
                             {"worst", 1.0 / 3.0},
                             {"worst_uncertainty", 0.3},
                             {"verdict", "pass"}});
    entry.folder = "/records/" + number;
    return entry;
}

} // namespace zeroline::unit_register
