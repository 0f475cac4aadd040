#include "acquisition/trace/instrument.hpp"

#include "acquisition/trace/input_error.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace zeroline::trace {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;

json complete()
{
    return json::parse(R"({
      "schema": "zeroline/instrument/1",
      "name": "bench transducer 2", "serial": "PT-3310",
      "port": {"baud": 115200, "data_bits": 8, "parity": "even", "stop_bits": 2, "flow_control": "hardware",
               "dtr": false, "rts": true, "settle_s": 2.0, "start": "GO\r\n", "stop": "HALT\r\n"},
      "language": {"kind": "numeric-lines", "field": 2, "separator": ";", "unit": "hPa", "count_field": 1,
                   "time_field": 3, "time_scale_s": 0.001, "unit_field": 4, "decimal": ",",
                   "overrange_words": ["OL", "----"], "checksum": "crc16-modbus", "checksum_separator": "#"},
      "range": {"low": -100, "high": 100, "resolution": 0.01, "unit": "hPa"},
      "rate": {"nominal_hz": 250, "clock_ppm": 100},
      "calibration": {"certificate": "CAL-771", "on": "2026-06-03", "due": "2027-06-03",
                      "expanded_uncertainty": 0.20, "coverage_factor": 2.0,
                      "range": {"low": -80, "high": 80}, "temperature_C": 23, "warm_up_s": 300,
                      "points": [[-60, -60.05], [0, 0.01], [60, 60.08]]},
      "uncertainty": [{"name": "temperature", "value": 0.05, "distribution": "rectangular"}]
    })");
}

json query()
{
    auto tree = complete();
    tree["language"] = json::parse(R"({"kind": "scpi-query", "unit": "kPa", "query": "READ?", "line_end": "\r\n",
                                       "pipelined": true, "timeout_s": 0.2, "retries": 3})");
    return tree;
}

json dressed()
{
    auto tree = complete();
    tree["language"] = json::parse(R"({"kind": "polled-lines", "unit": "mmH2O", "query": "#01", "line_end": "",
                                       "field": "P", "unit_field": "P", "count_field": "N", "separator": ";",
                                       "name_mark": ":", "scale": 0.01, "offset": -5, "prefix": ">", "timeout_s": 0.2,
                                       "frame_start": "\u0002", "frame_end": "\u0003", "checksum": "sum8"})");
    return tree;
}

json registers()
{
    auto tree = complete();
    tree["language"] = json::parse(R"({"kind": "modbus-rtu", "unit": "Pa", "address": 17, "function": 4,
                                       "register": 107, "type": "float32", "word_order": "low-first",
                                       "scale": 0.1, "offset": -5})");
    return tree;
}

TEST(Instrument, IsReadCompletely)
{
    const auto instrument = parse_instrument(complete());
    EXPECT_EQ(instrument.name, "bench transducer 2");
    EXPECT_EQ(instrument.serial, "PT-3310");
    EXPECT_EQ(instrument.port.baud, 115200);
    EXPECT_EQ(instrument.port.parity, Parity::even);
    EXPECT_EQ(instrument.port.stop_bits, 2);
    EXPECT_EQ(instrument.port.flow_control, FlowControl::hardware);
    EXPECT_FALSE(instrument.port.dtr);
    EXPECT_EQ(instrument.port.start, "GO\r\n");
    EXPECT_EQ(instrument.language.kind, Language::Kind::numeric_lines);
    EXPECT_EQ(instrument.language.field, 2);
    EXPECT_EQ(instrument.language.unit, PressureUnit::hPa);
    EXPECT_EQ(instrument.language.count_field, 1);
    EXPECT_EQ(instrument.language.time_field, 3);
    EXPECT_EQ(instrument.language.unit_field, 4);
    EXPECT_EQ(instrument.language.time_scale_s, 0.001);
    EXPECT_EQ(instrument.language.decimal, ',');
    EXPECT_EQ(instrument.language.overrange_words, (std::vector<std::string>{"OL", "----"}));
    EXPECT_EQ(instrument.language.checksum, Language::Checksum::crc16_modbus);
    EXPECT_EQ(instrument.language.checksum_separator, "#");
    EXPECT_EQ(instrument.range.unit, PressureUnit::hPa);
    EXPECT_EQ(instrument.nominal_hz, 250.0);
    EXPECT_EQ(instrument.clock_ppm, 100.0);
    EXPECT_EQ(instrument.calibration.due, "2027-06-03");
    EXPECT_EQ(instrument.calibration.temperature_C, 23.0);
    EXPECT_EQ(instrument.calibration.points.at(2).indicated, 60.08);
    EXPECT_EQ(instrument.uncertainty.at(0).distribution, Spread::rectangular);
}

TEST(Instrument, SpeaksByQuery)
{
    const auto language = parse_instrument(query()).language;
    EXPECT_EQ(language.kind, Language::Kind::scpi_query);
    EXPECT_EQ(language.query, "READ?");
    EXPECT_EQ(language.line_end, "\r\n");
    EXPECT_TRUE(language.pipelined);
    EXPECT_EQ(language.timeout_s, 0.2);
    EXPECT_EQ(language.retries, 3);
    EXPECT_TRUE(language.polled());
}

TEST(Instrument, AnswersAQueryWithALine)
{
    const auto language = parse_instrument(dressed()).language;
    EXPECT_EQ(language.kind, Language::Kind::polled_lines);
    EXPECT_EQ(language.unit, PressureUnit::mmH2O);
    EXPECT_EQ(language.query, "#01");
    EXPECT_EQ(language.line_end, "");
    EXPECT_EQ(language.field, 0);
    EXPECT_EQ(language.names.pressure, "P");
    EXPECT_EQ(language.names.unit, "P");
    EXPECT_EQ(language.names.count, "N");
    EXPECT_EQ(language.name_mark, ":");
    EXPECT_EQ(language.scale, 0.01);
    EXPECT_EQ(language.offset, -5.0);
    EXPECT_EQ(language.prefix, ">");
    EXPECT_EQ(language.frame_start, "\x02");
    EXPECT_EQ(language.frame_end, "\x03");
    EXPECT_EQ(language.checksum, Language::Checksum::sum8);
    EXPECT_TRUE(language.polled());
}

TEST(Instrument, MayWriteTheUnitInThePressuresOwnField)
{
    auto tree = complete();
    tree["language"]["unit_field"] = 2;
    const auto language = parse_instrument(tree).language;
    EXPECT_EQ(language.unit_field, language.field);
}

TEST(Instrument, SpeaksByRegisters)
{
    const auto language = parse_instrument(registers()).language;
    EXPECT_EQ(language.kind, Language::Kind::modbus_rtu);
    EXPECT_EQ(language.address, 17);
    EXPECT_EQ(language.function, 4);
    EXPECT_EQ(language.first_register, 107);
    EXPECT_EQ(language.register_type, Language::Register::float32);
    EXPECT_TRUE(language.low_word_first);
    EXPECT_EQ(language.scale, 0.1);
    EXPECT_EQ(language.offset, -5.0);
}

TEST(Instrument, NeedsLittleAndFillsInTheRest)
{
    const auto instrument = parse_instrument(json::parse(R"({
      "schema": "zeroline/instrument/1", "name": "a", "serial": "b",
      "port": {"baud": 9600, "data_bits": 8, "parity": "none", "stop_bits": 1},
      "language": {"kind": "numeric-lines", "unit": "cmH2O"},
      "range": {"low": -100, "high": 100, "resolution": 0.1, "unit": "cmH2O"},
      "rate": {"nominal_hz": 100, "clock_ppm": 50},
      "calibration": {"certificate": "C", "on": "2026-01-01", "due": "2026-01-01",
                      "expanded_uncertainty": 0.2, "coverage_factor": 2}
    })"));
    EXPECT_TRUE(instrument.port.dtr);
    EXPECT_EQ(instrument.port.settle_s, 0.0);
    EXPECT_EQ(instrument.language.field, 1);
    EXPECT_EQ(instrument.language.separator, ",");
    EXPECT_EQ(instrument.calibrated_low(), -100.0);
    EXPECT_EQ(instrument.calibrated_high(), 100.0);
    EXPECT_FALSE(instrument.language.polled());
}

TEST(Instrument, CalibratedRangeIsAsGivenElseThePointsElseTheSensors)
{
    auto tree = complete();
    EXPECT_EQ(parse_instrument(tree).calibrated_low(), -80.0);
    EXPECT_EQ(parse_instrument(tree).calibrated_high(), 80.0);
    tree["calibration"].erase("range");
    EXPECT_EQ(parse_instrument(tree).calibrated_low(), -60.0);
    EXPECT_EQ(parse_instrument(tree).calibrated_high(), 60.0);
    tree["calibration"].erase("points");
    EXPECT_EQ(parse_instrument(tree).calibrated_low(), -100.0);
}

TEST(Instrument, IsWrittenAsItIsRead)
{
    for (const auto& tree : {complete(), query(), registers(), dressed()}) {
        const auto written = to_json(parse_instrument(tree));
        EXPECT_EQ(to_json(parse_instrument(written)), written);
        for (const auto& [key, value] : tree.items()) {
            for (const auto& [inner, expected] : value.items()) {
                EXPECT_EQ(value.is_object() ? written[key][inner] : written[key], value.is_object() ? expected : value)
                    << key << '/' << inner;
            }
        }
    }
}

struct Refusal {
    const char* pointer; ///< where the change is made, and where the message points
    const char* value;   ///< JSON; empty: the key is taken out
    const char* said;
};

const Refusal kRefusals[] = {
    {"/schema", "", "missing"},
    {"/schema", "\"zeroline/instrument/2\"", "version 2"},
    {"/schema", "\"zeroline/work-order/1\"", "zeroline/instrument/1"},
    {"/name", "", "missing"},
    {"/name", "\"\"", "empty"},
    {"/serial", "17", "a text"},
    {"/colour", "\"red\"", "unknown key"},
    {"/port", "", "missing"},
    {"/port", "[]", "an object"},
    {"/port/baud", "", "missing"},
    {"/port/baud", "0", "50 to 4000000"},
    {"/port/baud", "9600.5", "whole number"},
    {"/port/baud", "\"9600\"", "whole number"},
    {"/port/data_bits", "9", "5 to 8"},
    {"/port/parity", "\"mark\"", "none, even, odd"},
    {"/port/stop_bits", "3", "1 to 2"},
    {"/port/flow_control", "\"xon\"", "none, hardware, software"},
    {"/port/dtr", "1", "true or false"},
    {"/port/settle_s", "-1", "from 0 to 60"},
    {"/port/speed", "1", "unknown key"},
    {"/language/kind", "\"morse\"", "numeric-lines, scpi-query, modbus-rtu"},
    {"/language/unit", "\"torr\"", "cmH2O, mmH2O, Pa, hPa"},
    {"/language/unit", "", "missing"},
    {"/language/field", "0", "1 to 64"},
    {"/language/separator", "\"\"", "1 to 8 bytes"},
    {"/language/separator", "\",\"", "decimal mark"},
    {"/language/count_field", "2", "taken already"},
    {"/language/unit_field", "3", "taken already"},
    {"/language/field", "\"\"", "1 to 32 bytes"},
    {"/language/prefix", "\"\"", "1 to 32 bytes"},
    {"/language/frame_start", "\"STX\"", "one byte"},
    {"/language/frame_end", "\"\"", "one byte"},
    {"/language/scale", "0", "not 0"},
    {"/language/time_scale_s", "0", "from 1e-09 to 3600"},
    {"/language/decimal", "\"'\"", "one of"},
    {"/language/overrange_words", "\"OL\"", "an array"},
    {"/language/checksum", "\"crc32\"", "none, xor8, crc16-modbus"},
    {"/language/query", "\"READ?\"", "unknown key"},
    {"/range/low", "100", ""},
    {"/range/high", "-100", "above low"},
    {"/range/resolution", "0", "smallest step"},
    {"/range/resolution", "50", "from 0 to 10"},
    {"/range/high", "1e9", "from"},
    {"/rate/nominal_hz", "0.5", "from 1 to 10000"},
    {"/rate/clock_ppm", "-1", "from 0 to 10000"},
    {"/rate/clock_ppm", "", "missing"},
    {"/calibration/certificate", "\"\"", "empty"},
    {"/calibration/on", "\"2026-02-30\"", "YYYY-MM-DD"},
    {"/calibration/due", "\"2026-06-02\"", "not before"},
    {"/calibration/due", "\"3.6.2027\"", "YYYY-MM-DD"},
    {"/calibration/expanded_uncertainty", "0", "above 0"},
    {"/calibration/coverage_factor", "0.5", "from 1 to 5"},
    {"/calibration/range/high", "101", "from -100 to 100"},
    {"/calibration/range/high", "-80", "above low"},
    {"/calibration/temperature_C", "230", "from -40 to 85"},
    {"/calibration/temperature_coefficient", "-0.01", "from 0"},
    {"/calibration/points/1", "[-60, 0]", ""},
    {"/calibration/points/2", "[60]", "[reference, indicated]"},
    {"/calibration/points/2", "[60, 60, 1]", "[reference, indicated]"},
    {"/calibration/points/1", "[0, -60.2]", ""},
    {"/calibration/points", "[[0, 0]]", "none, or 2"},
    {"/calibration/points/2", "[60, 600]", "tenth of the range"},
    {"/uncertainty/0/distribution", "\"uniform\"", "normal, rectangular, triangular, arcsine"},
    {"/uncertainty/0/value", "-0.1", "from 0"},
    {"/uncertainty/0/name", "\"\"", "empty"},
    {"/uncertainty", "{}", "an array"},
};

json changed(json tree, const Refusal& refusal)
{
    const json::json_pointer pointer(refusal.pointer);
    if (*refusal.value == '\0') {
        tree.at(pointer.parent_pointer()).erase(pointer.back());
    } else {
        tree[pointer] = json::parse(refusal.value);
    }
    return tree;
}

TEST(InstrumentRefusal, NamesThePlaceAndWhatWasExpected)
{
    for (const auto& refusal : kRefusals) {
        SCOPED_TRACE(std::string(refusal.pointer) + " " + refusal.value);
        try {
            static_cast<void>(parse_instrument(changed(complete(), refusal)));
            ADD_FAILURE() << "was accepted";
        } catch (const InputError& error) {
            EXPECT_THAT(std::string(error.what()), HasSubstr(refusal.said));
            if (*refusal.said != '\0') {
                EXPECT_EQ(error.where(), refusal.pointer);
            }
            EXPECT_FALSE(error.expected().empty());
        }
    }
}

TEST(InstrumentRefusal, OfAQueryOrARegisterNamesThePlaceToo)
{
    const std::pair<json, Refusal> cases[] = {
        {query(), {"/language/query", "\"READ\"", "question mark"}},
        {query(), {"/language/query", "", "missing"}},
        {query(), {"/language/timeout_s", "0", "from 0.01 to 10"}},
        {query(), {"/language/retries", "11", "0 to 10"}},
        {query(), {"/language/field", "1", "unknown key"}},
        {query(), {"/language/scale", "0", "not 0"}},
        {dressed(), {"/language/query", "", "missing"}},
        {dressed(), {"/language/pipelined", "true", "unknown key"}},
        {dressed(), {"/language/count_field", "\"P\"", "taken already"}},
        {registers(), {"/language/address", "0", "1 to 247"}},
        {registers(), {"/language/function", "6", "3 to 4"}},
        {registers(), {"/language/register", "65536", "0 to 65535"}},
        {registers(), {"/language/type", "\"float64\"", "int16, uint16, int32, float32"}},
        {registers(), {"/language/word_order", "\"little\"", "high-first, low-first"}},
        {registers(), {"/language/scale", "0", "not 0"}},
    };
    for (const auto& [tree, refusal] : cases) {
        SCOPED_TRACE(std::string(refusal.pointer) + " " + refusal.value);
        try {
            static_cast<void>(parse_instrument(changed(tree, refusal)));
            ADD_FAILURE() << "was accepted";
        } catch (const InputError& error) {
            EXPECT_EQ(error.where(), refusal.pointer);
            EXPECT_THAT(std::string(error.what()), HasSubstr(refusal.said));
        }
    }
}

// Whatever a file holds in place of a value: refused or read, never another exception.
TEST(InstrumentRefusal, IsAnInputErrorForAnyValueAnywhere)
{
    const auto flat = complete().flatten();
    for (const auto& [pointer, unused] : flat.items()) {
        for (const auto* value : {"null", "[]", "{}", "\"\"", "true", "-1", "1e300", "[[[]]]", "\"\\u0000\""}) {
            auto tree = complete();
            tree[json::json_pointer(pointer)] = json::parse(value);
            try {
                const auto written = to_json(parse_instrument(tree));
                EXPECT_EQ(to_json(parse_instrument(written)), written) << pointer << ' ' << value;
            } catch (const InputError& error) {
                EXPECT_FALSE(error.where().empty());
            }
        }
    }
}

} // namespace
} // namespace zeroline::trace
