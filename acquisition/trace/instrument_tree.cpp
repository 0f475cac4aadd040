#include "acquisition/trace/instrument.hpp"

#include <nlohmann/json.hpp>

namespace zeroline::trace {

namespace {

nlohmann::json port_tree(const PortSettings& port)
{
    static constexpr const char* kParities[] = {"none", "even", "odd"};
    static constexpr const char* kFlows[] = {"none", "hardware", "software"};
    return {{"baud", port.baud},
            {"data_bits", port.data_bits},
            {"parity", kParities[static_cast<int>(port.parity)]},
            {"stop_bits", port.stop_bits},
            {"flow_control", kFlows[static_cast<int>(port.flow_control)]},
            {"dtr", port.dtr},
            {"rts", port.rts},
            {"settle_s", port.settle_s},
            {"start", port.start},
            {"stop", port.stop}};
}

/// A field by its name where it has one, else by its number.
void put_field(nlohmann::json& tree, const char* key, const std::optional<int>& number, const std::string& name)
{
    if (!name.empty()) {
        tree[key] = name;
    } else if (number) {
        tree[key] = *number;
    }
}

void put_text(nlohmann::json& tree, const char* key, const std::string& text)
{
    if (!text.empty()) {
        tree[key] = text;
    }
}

void put_scale(nlohmann::json& tree, const Language& language)
{
    tree["scale"] = language.scale;
    tree["offset"] = language.offset;
}

void put_numeric_lines(nlohmann::json& tree, const Language& language)
{
    static constexpr const char* kChecksums[] = {"none", "xor8", "crc16-modbus", "sum8", "crc16-ccitt"};
    put_field(tree, "field", language.field, language.names.pressure);
    tree["separator"] = language.separator;
    put_field(tree, "count_field", language.count_field, language.names.count);
    put_field(tree, "time_field", language.time_field, language.names.time);
    put_field(tree, "unit_field", language.unit_field, language.names.unit);
    tree["name_mark"] = language.name_mark;
    put_text(tree, "prefix", language.prefix);
    put_text(tree, "frame_start", language.frame_start);
    put_text(tree, "frame_end", language.frame_end);
    tree["time_scale_s"] = language.time_scale_s;
    tree["decimal"] = std::string(1, language.decimal);
    tree["overrange_words"] = language.overrange_words;
    tree["checksum"] = kChecksums[static_cast<int>(language.checksum)];
    tree["checksum_separator"] = language.checksum_separator;
}

void put_scpi_query(nlohmann::json& tree, const Language& language)
{
    tree["query"] = language.query;
    tree["line_end"] = language.line_end;
    tree["pipelined"] = language.pipelined;
}

void put_modbus_rtu(nlohmann::json& tree, const Language& language)
{
    static constexpr const char* kTypes[] = {"int16", "uint16", "int32", "float32"};
    tree["address"] = language.address;
    tree["function"] = language.function;
    tree["register"] = language.first_register;
    tree["type"] = kTypes[static_cast<int>(language.register_type)];
    tree["word_order"] = language.low_word_first ? "low-first" : "high-first";
}

nlohmann::json language_tree(const Language& language)
{
    static constexpr const char* kKinds[] = {"numeric-lines", "scpi-query", "modbus-rtu", "polled-lines"};
    nlohmann::json tree = {{"kind", kKinds[static_cast<int>(language.kind)]}, {"unit", name_of(language.unit)}};
    put_scale(tree, language);
    switch (language.kind) {
    case Language::Kind::numeric_lines:
        put_numeric_lines(tree, language);
        break;
    case Language::Kind::scpi_query:
        put_scpi_query(tree, language);
        break;
    case Language::Kind::modbus_rtu:
        put_modbus_rtu(tree, language);
        break;
    case Language::Kind::polled_lines:
        put_numeric_lines(tree, language);
        tree["query"] = language.query;
        tree["line_end"] = language.line_end;
        break;
    }
    if (language.polled()) {
        tree["timeout_s"] = language.timeout_s;
        tree["retries"] = language.retries;
    }
    return tree;
}

nlohmann::json calibration_tree(const Calibration& calibration)
{
    nlohmann::json tree = {{"certificate", calibration.certificate},
                           {"on", calibration.on},
                           {"due", calibration.due},
                           {"expanded_uncertainty", calibration.expanded_uncertainty},
                           {"coverage_factor", calibration.coverage_factor}};
    if (calibration.low && calibration.high) {
        tree["range"] = {{"low", *calibration.low}, {"high", *calibration.high}};
    }
    if (calibration.temperature_C) {
        tree["temperature_C"] = *calibration.temperature_C;
    }
    if (calibration.temperature_coefficient) {
        tree["temperature_coefficient"] = *calibration.temperature_coefficient;
    }
    if (calibration.warm_up_s) {
        tree["warm_up_s"] = *calibration.warm_up_s;
    }
    if (!calibration.points.empty()) {
        auto& points = tree["points"] = nlohmann::json::array();
        for (const auto& point : calibration.points) {
            points.push_back(nlohmann::json::array({point.reference, point.indicated}));
        }
    }
    return tree;
}

nlohmann::json uncertainty_tree(const std::vector<UncertaintyEntry>& entries)
{
    static constexpr const char* kSpreads[] = {"normal", "rectangular", "triangular", "arcsine"};
    auto tree = nlohmann::json::array();
    for (const auto& entry : entries) {
        tree.push_back({{"name", entry.name},
                        {"value", entry.value},
                        {"distribution", kSpreads[static_cast<int>(entry.distribution)]}});
    }
    return tree;
}

} // namespace

nlohmann::json to_json(const Instrument& instrument)
{
    nlohmann::json tree = {{"schema", "zeroline/instrument/1"},
                           {"name", instrument.name},
                           {"serial", instrument.serial},
                           {"port", port_tree(instrument.port)},
                           {"language", language_tree(instrument.language)},
                           {"range",
                            {{"low", instrument.range.low},
                             {"high", instrument.range.high},
                             {"resolution", instrument.range.resolution},
                             {"unit", name_of(instrument.range.unit)}}},
                           {"rate", {{"nominal_hz", instrument.nominal_hz}, {"clock_ppm", instrument.clock_ppm}}},
                           {"calibration", calibration_tree(instrument.calibration)}};
    if (instrument.response_ms) {
        tree["response_ms"] = *instrument.response_ms;
    }
    if (!instrument.uncertainty.empty()) {
        tree["uncertainty"] = uncertainty_tree(instrument.uncertainty);
    }
    return tree;
}

} // namespace zeroline::trace
