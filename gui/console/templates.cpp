#include "gui/console/templates.hpp"

namespace zeroline::console {

namespace {

constexpr std::string_view kOrder = R"json({
  "$remarks": [
    "Pressures in cmH2O, exsufflation negative; durations in s. docs/formats.md names every key.",
    "occasion: pre-delivery, periodic, home-visit. decision_rule: simple, guarded.",
    "Tolerances left out are the house profile's, labelled as such on the record. Each needs a basis: where it comes from."
  ],
  "schema": "zeroline/work-order/1",
  "work_order": "WO-0001",
  "occasion": "pre-delivery",
  "customer": "ward 4",
  "unit": {"asset": "RC-0001", "serial": "K0001", "model": "demonstration unit", "display_step": 1},
  "prescription": {
    "reference": "RX-0001",
    "ordered_on": "2026-11-02",
    "presets": [
      {
        "name": "day",
        "insufflation": {"pressure": 40, "duration": 1.5},
        "exsufflation": {"pressure": -40, "duration": 1.5},
        "pause": {"duration": 2.0},
        "flow": "full",
        "trigger": "off"
      }
    ]
  },
  "decision_rule": "simple",
  "cycles": 5,
  "lead_cycles": 1,
  "contact": "service desk, +00 000 0000"
}
)json";

constexpr std::string_view kInstrument = R"json({
  "$remarks": [
    "port: as in the instrument's own papers. language: docs/instruments.md describes the kinds, with examples.",
    "response_ms: sensor, filter and sensing line together, 10 % to 90 % of a step; left out, peaks are 'at least'.",
    "range and calibration: in the range's unit. Without a valid calibration nothing is stated to conform."
  ],
  "schema": "zeroline/instrument/1",
  "name": "bench transducer",
  "serial": "PT-0001",
  "port": {"baud": 115200, "data_bits": 8, "parity": "none", "stop_bits": 1},
  "language": {"kind": "numeric-lines", "field": 2, "separator": ",", "count_field": 1, "unit": "cmH2O"},
  "range": {"low": -100, "high": 100, "resolution": 0.01, "unit": "cmH2O"},
  "rate": {"nominal_hz": 250, "clock_ppm": 100},
  "response_ms": 2,
  "calibration": {
    "certificate": "CAL-0001",
    "on": "2026-06-03",
    "due": "2027-06-03",
    "expanded_uncertainty": 0.2,
    "coverage_factor": 2.0,
    "range": {"low": -80, "high": 80}
  },
  "uncertainty": [{"name": "temperature", "value": 0.05, "distribution": "rectangular"}]
}
)json";

constexpr std::string_view kBench = R"json({
  "$remarks": [
    "Put this file at zeroline/bench.json in $XDG_CONFIG_HOME (~/.config where that is not set), or name it with",
    "--bench. Every key but schema may be left out.",
    "organisation, address: stand on every record; without them none is sealed. key_file: where the signing key is.",
    "house: the limits of your own, used where a work order gives none; approved_by stands on every record.",
    "duty: how long a unit cycles against a closed end, and how long it rests after that, in s.",
    "interval_months: from one check of a unit to the next; the printed record and the label show the day."
  ],
  "schema": "zeroline/bench/1",
  "organisation": "Example Respiratory Services (invented)",
  "address": "1 Example Street, Example Town",
  "house": {
    "basis": "house default, no published source",
    "tolerances": {
      "pressure": {"absolute": 2, "relative": 0.1, "at_most": 5},
      "duration": {"absolute": 0.1, "relative": 0.1},
      "residual": {"absolute": 2},
      "zero": {"absolute": 2},
      "display": {"absolute": 3}
    },
    "limits": {"zero_offset": 0.5, "zero_drift": 0.5, "leak": 1, "peak_hold": 0.1}
  },
  "duty": {"cycling_s": 90, "rest_s": 30},
  "interval_months": 12
}
)json";

} // namespace

std::string_view template_text(Template which)
{
    switch (which) {
    case Template::order:
        return kOrder;
    case Template::instrument:
        return kInstrument;
    case Template::bench:
        break;
    }
    return kBench;
}

} // namespace zeroline::console
