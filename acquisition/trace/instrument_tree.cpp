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

void put_optional(nlohmann::json& tree, const char* key, const std::optional<int>& value)
{
    if (value) {
        tree[key] = *value;
    }
}

void put_numeric_lines(nlohmann::json& tree, const Language& language)
{
    static constexpr const char* kChecksums[] = {"none", "xor8", "crc16-modbus"};
    tree["field"] = language.field;
    tree["separator"] = language.separator;
    put_optional(tree, "count_field", language.count_field);
    put_optional(tree, "time_field", language.time_field);
    put_optional(tree, "unit_field", language.unit_field);
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
    tree["scale"] = language.scale;
    tree["offset"] = language.offset;
}

nlohmann::json language_tree(const Language& language)
{
    static constexpr const char* kKinds[] = {"numeric-lines", "scpi-query", "modbus-rtu"};
    nlohmann::json tree = {{"kind", kKinds[static_cast<int>(language.kind)]}, {"unit", name_of(language.unit)}};
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
