#include "acquisition/trace/instrument.hpp"

#include "acquisition/trace/json_reader.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::trace {

namespace {

// A file that states more than this was mistyped: limits of plausibility, not of the program.
constexpr long long kLowestBaud = 50;
constexpr long long kHighestBaud = 4'000'000;
constexpr double kLongestSettle_s = 60.0;
constexpr std::size_t kLongestCommand = 256;
constexpr std::size_t kLongestSeparator = 8;
constexpr long long kMostFields = 64;
constexpr std::size_t kLongestFieldName = 32;
constexpr std::size_t kLongestPrefix = 32;
constexpr double kWidestRange_cmH2O = 20'000.0;
constexpr double kNarrowestRange_cmH2O = 10.0;
constexpr double kLowestRate_hz = 1.0;
constexpr double kHighestRate_hz = 10'000.0;
constexpr double kWorstClock_ppm = 10'000.0;
constexpr double kSlowestResponse_ms = 1000.0;
constexpr double kLongestWarmUp_s = 86'400.0;
constexpr std::size_t kMostPoints = 1000;
constexpr std::size_t kMostEntries = 100;
// A calibration point that is off by more than this share of the range is a typing error or another unit.
constexpr double kLargestPointError = 0.1;

PressureUnit unit_at(const JsonReader& place)
{
    const auto unit = pressure_unit_named(place.text());
    if (!unit) {
        std::string names;
        for (const auto known : all_pressure_units()) {
            names += (names.empty() ? "" : ", ") + std::string(name_of(known));
        }
        place.refuse(place.tree().dump(), "one of " + names);
    }
    return *unit;
}

std::string bounded_text(const JsonReader& place, std::size_t shortest, std::size_t longest)
{
    auto text = place.text();
    if (text.size() < shortest || text.size() > longest) {
        place.refuse("a text of " + std::to_string(text.size()) + " bytes",
                     "a text of " + std::to_string(shortest) + " to " + std::to_string(longest) + " bytes");
    }
    return text;
}

int int_at(const JsonReader& parent, std::string_view key, long long low, long long high)
{
    return static_cast<int>(parent.at(key).integer(low, high));
}

int int_or(const JsonReader& parent, std::string_view key, long long low, long long high, int otherwise)
{
    const auto place = parent.find(key);
    return place ? static_cast<int>(place->integer(low, high)) : otherwise;
}

double number_or(const JsonReader& parent, std::string_view key, double low, double high, double otherwise)
{
    const auto place = parent.find(key);
    return place ? place->number(low, high) : otherwise;
}

bool boolean_or(const JsonReader& parent, std::string_view key, bool otherwise)
{
    const auto place = parent.find(key);
    return place ? place->boolean() : otherwise;
}

std::string text_or(const JsonReader& parent, std::string_view key, std::size_t shortest, std::size_t longest,
                    std::string otherwise)
{
    const auto place = parent.find(key);
    return place ? bounded_text(*place, shortest, longest) : std::move(otherwise);
}

std::size_t choice_or(const JsonReader& parent, std::string_view key, std::initializer_list<std::string_view> words)
{
    const auto place = parent.find(key);
    return place ? place->one_of(words) : 0;
}

PortSettings parse_port(const JsonReader& at)
{
    at.object_with_only(
        {"baud", "data_bits", "parity", "stop_bits", "flow_control", "dtr", "rts", "settle_s", "start", "stop"});
    PortSettings port;
    port.baud = int_at(at, "baud", kLowestBaud, kHighestBaud);
    port.data_bits = int_at(at, "data_bits", 5, 8);
    port.parity = static_cast<Parity>(at.at("parity").one_of({"none", "even", "odd"}));
    port.stop_bits = int_at(at, "stop_bits", 1, 2);
    port.flow_control = static_cast<FlowControl>(choice_or(at, "flow_control", {"none", "hardware", "software"}));
    port.dtr = boolean_or(at, "dtr", true);
    port.rts = boolean_or(at, "rts", true);
    port.settle_s = number_or(at, "settle_s", 0.0, kLongestSettle_s, 0.0);
    port.start = text_or(at, "start", 0, kLongestCommand, "");
    port.stop = text_or(at, "stop", 0, kLongestCommand, "");
    return port;
}

std::vector<std::string> parse_words(const JsonReader& at)
{
    std::vector<std::string> words;
    for (const auto& place : at.elements()) {
        words.push_back(bounded_text(place, 1, kLongestSeparator * 4));
    }
    return words;
}

/// A field by its number, or by its name: then the number is 0.
std::optional<int> field_at(const JsonReader& at, std::string_view key, std::string& name)
{
    const auto place = at.find(key);
    if (!place) {
        return std::nullopt;
    }
    if (place->tree().is_string()) {
        name = bounded_text(*place, 1, kLongestFieldName);
        return 0;
    }
    return static_cast<int>(place->integer(1, kMostFields));
}

// The unit may stand in the pressure's own field: 1.5kPa.
void refuse_shared_fields(const JsonReader& at)
{
    std::vector<nlohmann::json> taken{at.has("field") ? at.at("field").tree() : nlohmann::json(1)};
    const nlohmann::json pressure = taken.front();
    for (const auto* key : {"count_field", "time_field", "unit_field"}) {
        if (!at.has(key) || (std::string_view(key) == "unit_field" && at.at(key).tree() == pressure)) {
            continue;
        }
        const auto place = at.at(key);
        if (std::find(taken.begin(), taken.end(), place.tree()) != taken.end()) {
            place.refuse("field " + place.tree().dump() + " is taken already", "a field of its own");
        }
        taken.push_back(place.tree());
    }
}

/// A text of one byte, for example "\u0002"; empty where the key is missing.
std::string frame_byte(const JsonReader& at, std::string_view key)
{
    const auto place = at.find(key);
    if (place && place->text().size() != 1) {
        place->refuse(place->described(), "a text of one byte, for example \"\\u0002\"");
    }
    return place ? place->text() : std::string();
}

void parse_scale(const JsonReader& at, Language& language)
{
    language.scale = number_or(at, "scale", -1e6, 1e6, 1.0);
    if (language.scale == 0.0) {
        at.at("scale").refuse("0", "a factor that is not 0");
    }
    language.offset = number_or(at, "offset", -1e6, 1e6, 0.0);
}

char parse_decimal(const JsonReader& at, const std::string& separator)
{
    const char decimal = choice_or(at, "decimal", {".", ","}) == 0 ? '.' : ',';
    if (separator.find(decimal) != std::string::npos) {
        const auto place = at.find("separator");
        (place ? *place : at).refuse("the separator holds the decimal mark", "a separator without it");
    }
    return decimal;
}

void parse_fields(const JsonReader& at, Language& language)
{
    language.field = field_at(at, "field", language.names.pressure).value_or(1);
    language.separator = text_or(at, "separator", 1, kLongestSeparator, ",");
    language.count_field = field_at(at, "count_field", language.names.count);
    language.time_field = field_at(at, "time_field", language.names.time);
    language.unit_field = field_at(at, "unit_field", language.names.unit);
    language.name_mark = text_or(at, "name_mark", 1, kLongestSeparator, "=");
    refuse_shared_fields(at);
}

void parse_lines(const JsonReader& at, Language& language)
{
    parse_fields(at, language);
    language.time_scale_s = number_or(at, "time_scale_s", 1e-9, 3600.0, 1.0);
    language.decimal = parse_decimal(at, language.separator);
    if (const auto words = at.find("overrange_words")) {
        language.overrange_words = parse_words(*words);
    }
    language.checksum = static_cast<Language::Checksum>(
        choice_or(at, "checksum", {"none", "xor8", "crc16-modbus", "sum8", "crc16-ccitt"}));
    language.checksum_separator = text_or(at, "checksum_separator", 1, kLongestSeparator, "*");
    language.prefix = text_or(at, "prefix", 1, kLongestPrefix, "");
    language.frame_start = frame_byte(at, "frame_start");
    language.frame_end = frame_byte(at, "frame_end");
    parse_scale(at, language);
}

void parse_numeric_lines(const JsonReader& at, Language& language)
{
    at.object_with_only({"kind", "unit", "scale", "offset", "field", "separator", "count_field", "time_field",
                         "time_scale_s", "unit_field", "name_mark", "decimal", "overrange_words", "checksum",
                         "checksum_separator", "prefix", "frame_start", "frame_end"});
    parse_lines(at, language);
}

void parse_polling(const JsonReader& at, Language& language)
{
    language.timeout_s = number_or(at, "timeout_s", 0.01, 10.0, 0.5);
    language.retries = int_or(at, "retries", 0, 10, 2);
}

void parse_polled_lines(const JsonReader& at, Language& language)
{
    at.object_with_only({"kind",      "unit",        "scale",           "offset",       "field",
                         "separator", "count_field", "time_field",      "time_scale_s", "unit_field",
                         "name_mark", "decimal",     "overrange_words", "checksum",     "checksum_separator",
                         "prefix",    "frame_start", "frame_end",       "query",        "line_end",
                         "timeout_s", "retries"});
    parse_lines(at, language);
    language.query = bounded_text(at.at("query"), 1, kLongestCommand);
    language.line_end = text_or(at, "line_end", 0, 2, "\n");
    parse_polling(at, language);
}

void parse_scpi_query(const JsonReader& at, Language& language)
{
    at.object_with_only({"kind", "unit", "scale", "offset", "query", "line_end", "pipelined", "timeout_s", "retries"});
    const auto query = at.at("query");
    language.query = bounded_text(query, 1, kLongestCommand);
    if (language.query.find('?') == std::string::npos) {
        query.refuse(query.tree().dump(), "a query, that is a text with a question mark");
    }
    language.line_end = text_or(at, "line_end", 1, 2, "\n");
    language.pipelined = boolean_or(at, "pipelined", false);
    parse_scale(at, language);
    parse_polling(at, language);
}

void parse_modbus_rtu(const JsonReader& at, Language& language)
{
    at.object_with_only({"kind", "unit", "address", "function", "register", "type", "word_order", "scale", "offset",
                         "timeout_s", "retries"});
    language.address = int_at(at, "address", 1, 247);
    language.function = int_or(at, "function", 3, 4, 3);
    language.first_register = int_at(at, "register", 0, 65535);
    language.register_type =
        static_cast<Language::Register>(at.at("type").one_of({"int16", "uint16", "int32", "float32"}));
    language.low_word_first = choice_or(at, "word_order", {"high-first", "low-first"}) == 1;
    parse_scale(at, language);
    parse_polling(at, language);
}

Language parse_language(const JsonReader& at)
{
    Language language;
    language.kind = static_cast<Language::Kind>(
        at.at("kind").one_of({"numeric-lines", "scpi-query", "modbus-rtu", "polled-lines"}));
    language.unit = unit_at(at.at("unit"));
    switch (language.kind) {
    case Language::Kind::numeric_lines:
        parse_numeric_lines(at, language);
        break;
    case Language::Kind::scpi_query:
        parse_scpi_query(at, language);
        break;
    case Language::Kind::modbus_rtu:
        parse_modbus_rtu(at, language);
        break;
    case Language::Kind::polled_lines:
        parse_polled_lines(at, language);
        break;
    }
    return language;
}

SensorRange parse_range(const JsonReader& at)
{
    at.object_with_only({"low", "high", "resolution", "unit"});
    SensorRange range;
    range.unit = unit_at(at.at("unit"));
    const double widest = from_cmH2O(kWidestRange_cmH2O, range.unit);
    range.low = at.at("low").number(-widest, widest);
    range.high = at.at("high").number(-widest, widest);
    if (!(range.high - range.low >= from_cmH2O(kNarrowestRange_cmH2O, range.unit))) {
        at.at("high").refuse(at.at("high").tree().dump(), "at least 10 cmH2O above low");
    }
    const auto resolution = at.at("resolution");
    range.resolution = resolution.number(0.0, (range.high - range.low) / 20.0);
    if (range.resolution == 0.0) {
        resolution.refuse("0", "the smallest step the reading makes");
    }
    return range;
}

CalibrationPoint parse_point(const JsonReader& at, const SensorRange& range)
{
    const auto pair = at.elements();
    if (pair.size() != 2) {
        at.refuse(std::to_string(pair.size()) + " values", "[reference, indicated]");
    }
    const double allowed = kLargestPointError * (range.high - range.low);
    const CalibrationPoint point{pair[0].number(range.low - allowed, range.high + allowed), pair[1].number()};
    if (!(std::abs(point.indicated - point.reference) <= allowed)) {
        at.refuse("an indication that is off by more than a tenth of the range", "both values in the range's unit");
    }
    return point;
}

std::vector<CalibrationPoint> parse_points(const JsonReader& at, const SensorRange& range)
{
    std::vector<CalibrationPoint> points;
    const auto places = at.elements();
    if (places.size() == 1 || places.size() > kMostPoints) {
        at.refuse(std::to_string(places.size()) + " points", "none, or 2 to " + std::to_string(kMostPoints));
    }
    for (const auto& place : places) {
        const auto point = parse_point(place, range);
        if (!points.empty() &&
            !(point.reference > points.back().reference && point.indicated > points.back().indicated)) {
            place.refuse("does not lie above the point before", "reference and indicated both increasing");
        }
        points.push_back(point);
    }
    return points;
}

void parse_calibrated_range(const JsonReader& at, const SensorRange& range, Calibration& calibration)
{
    at.object_with_only({"low", "high"});
    calibration.low = at.at("low").number(range.low, range.high);
    calibration.high = at.at("high").number(range.low, range.high);
    if (!(*calibration.low < *calibration.high)) {
        at.at("high").refuse(at.at("high").tree().dump(), "a value above low");
    }
}

double positive_at(const JsonReader& place, double high)
{
    const double value = place.number(0.0, high);
    if (value == 0.0) {
        place.refuse("0", "a value above 0");
    }
    return value;
}

Calibration parse_calibration(const JsonReader& at, const SensorRange& range)
{
    at.object_with_only({"certificate", "on", "due", "expanded_uncertainty", "coverage_factor", "range",
                         "temperature_C", "temperature_coefficient", "warm_up_s", "points"});
    Calibration calibration;
    calibration.certificate = at.at("certificate").filled_text();
    calibration.on = at.at("on").date();
    calibration.due = at.at("due").date();
    if (calibration.due < calibration.on) {
        at.at("due").refuse("\"" + calibration.due + "\"", "a day not before the calibration on " + calibration.on);
    }
    calibration.expanded_uncertainty = positive_at(at.at("expanded_uncertainty"), range.high - range.low);
    calibration.coverage_factor = at.at("coverage_factor").number(1.0, 5.0);
    if (const auto place = at.find("range")) {
        parse_calibrated_range(*place, range, calibration);
    }
    if (const auto place = at.find("temperature_C")) {
        calibration.temperature_C = place->number(-40.0, 85.0);
    }
    if (const auto place = at.find("temperature_coefficient")) {
        calibration.temperature_coefficient = place->number(0.0, range.high - range.low);
        (void)at.at("temperature_C"); // per degree away from what?
    }
    if (const auto place = at.find("warm_up_s")) {
        calibration.warm_up_s = place->number(0.0, kLongestWarmUp_s);
    }
    if (const auto place = at.find("points")) {
        calibration.points = parse_points(*place, range);
    }
    return calibration;
}

std::vector<UncertaintyEntry> parse_uncertainty(const JsonReader& at, const SensorRange& range)
{
    std::vector<UncertaintyEntry> entries;
    const auto places = at.elements();
    if (places.size() > kMostEntries) {
        at.refuse(std::to_string(places.size()) + " entries", "at most " + std::to_string(kMostEntries));
    }
    for (const auto& place : places) {
        place.object_with_only({"name", "value", "distribution"});
        UncertaintyEntry entry;
        entry.name = place.at("name").filled_text();
        entry.value = place.at("value").number(0.0, range.high - range.low);
        entry.distribution =
            static_cast<Spread>(place.at("distribution").one_of({"normal", "rectangular", "triangular", "arcsine"}));
        entries.push_back(std::move(entry));
    }
    return entries;
}

} // namespace

double Instrument::calibrated_low() const
{
    if (calibration.low) {
        return *calibration.low;
    }
    return calibration.points.empty() ? range.low : calibration.points.front().reference;
}

double Instrument::calibrated_high() const
{
    if (calibration.high) {
        return *calibration.high;
    }
    return calibration.points.empty() ? range.high : calibration.points.back().reference;
}

Instrument parse_instrument(const nlohmann::json& tree)
{
    const JsonReader root(tree);
    root.object_with_only(
        {"schema", "name", "serial", "port", "language", "range", "rate", "response_ms", "calibration", "uncertainty"});
    root.schema("zeroline/instrument", 1);
    Instrument instrument;
    instrument.name = root.at("name").filled_text();
    instrument.serial = root.at("serial").filled_text();
    instrument.port = parse_port(root.at("port"));
    instrument.language = parse_language(root.at("language"));
    instrument.range = parse_range(root.at("range"));
    const auto rate = root.at("rate");
    rate.object_with_only({"nominal_hz", "clock_ppm"});
    instrument.nominal_hz = rate.at("nominal_hz").number(kLowestRate_hz, kHighestRate_hz);
    instrument.clock_ppm = rate.at("clock_ppm").number(0.0, kWorstClock_ppm);
    if (const auto place = root.find("response_ms")) {
        instrument.response_ms = place->number(0.0, kSlowestResponse_ms);
    }
    instrument.calibration = parse_calibration(root.at("calibration"), instrument.range);
    if (const auto place = root.find("uncertainty")) {
        instrument.uncertainty = parse_uncertainty(*place, instrument.range);
    }
    return instrument;
}

} // namespace zeroline::trace
