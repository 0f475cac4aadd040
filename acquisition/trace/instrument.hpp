#pragma once

#include "acquisition/trace/units.hpp"

#include <nlohmann/json_fwd.hpp>

#include <optional>
#include <string>
#include <vector>

namespace zeroline::trace {

enum class Parity { none, even, odd };
enum class FlowControl { none, hardware, software };

/// Line settings of the serial port, and what is sent on opening and before closing.
struct PortSettings {
    int baud = 9600;
    int data_bits = 8;
    Parity parity = Parity::none;
    int stop_bits = 1;
    FlowControl flow_control = FlowControl::none;
    bool dtr = true;
    bool rts = true;
    double settle_s = 0.0; ///< pause after opening, before `start` is sent
    std::string start;     ///< sent after opening
    std::string stop;      ///< sent before closing
};

/// How readings are written on the line. Fields that a kind does not use keep their defaults.
struct Language {
    enum class Kind { numeric_lines, scpi_query, modbus_rtu, polled_lines };
    enum class Checksum { none, xor8, crc16_modbus, sum8, crc16_ccitt };
    enum class Register { int16, uint16, int32, float32 };

    Kind kind = Kind::numeric_lines;
    PressureUnit unit = PressureUnit::cmH2O; ///< unit of the value on the line

    // numeric-lines, scpi-query, modbus-rtu, polled-lines: the pressure is the number x scale + offset
    double scale = 1.0;
    double offset = 0.0;

    /// Names of fields that stand as NAME=VALUE on the line; empty: the field is found by its number.
    struct FieldNames {
        std::string pressure, count, time, unit;
    };

    // numeric-lines and polled-lines: fields are counted from 1; one that is found by its name has the number 0
    int field = 1;
    std::string separator = ",";
    std::optional<int> count_field;
    std::optional<int> time_field;
    double time_scale_s = 1.0;     ///< seconds per unit of the time field
    std::optional<int> unit_field; ///< the unit stands on the line
    char decimal = '.';
    std::vector<std::string> overrange_words; ///< e.g. "OL", "----"
    Checksum checksum = Checksum::none;
    std::string checksum_separator = "*";
    FieldNames names;
    std::string name_mark = "="; ///< parts name and value
    std::string prefix;          ///< every line begins with it; one that does not is no reading
    std::string frame_start;     ///< a byte in front of each line, e.g. STX; empty: none
    std::string frame_end;       ///< a byte that ends a line, as CR and LF do, e.g. ETX; empty: none

    // scpi-query, polled-lines
    std::string query;           ///< e.g. "READ?"
    std::string line_end = "\n"; ///< sent after each query
    bool pipelined = false;      ///< the next query is sent before the answer to the last one is there

    // modbus-rtu
    int address = 1;
    int function = 3;
    int first_register = 0; ///< protocol address, counted from 0
    Register register_type = Register::int16;
    bool low_word_first = false;

    // polled kinds: asked at Instrument::nominal_hz, or as fast as the line allows where that is slower
    double timeout_s = 0.5;
    int retries = 2;

    /// The program asks for each reading; otherwise the instrument sends by itself.
    [[nodiscard]] bool polled() const noexcept { return kind != Kind::numeric_lines; }
};

struct SensorRange {
    double low = 0.0;
    double high = 0.0;
    double resolution = 0.0;
    PressureUnit unit = PressureUnit::cmH2O;
};

struct CalibrationPoint {
    double reference = 0.0;
    double indicated = 0.0;
};

/// What the calibration certificate says. Pressures in the sensor range's unit.
struct Calibration {
    std::string certificate;
    std::string on;  ///< date, YYYY-MM-DD
    std::string due; ///< valid to the end of this day, local time
    double expanded_uncertainty = 0.0;
    double coverage_factor = 2.0;
    std::optional<double> low, high; ///< calibrated range as given; see calibrated_low()/high()
    std::optional<double> temperature_C;
    std::optional<double> temperature_coefficient; ///< by how much a reading may move per °C away from temperature_C
    std::optional<double> warm_up_s;
    std::vector<CalibrationPoint> points; ///< reference increasing; may be empty: no correction
};

enum class Spread { normal, rectangular, triangular, arcsine };

/// A further entry of the uncertainty budget. `normal`: a standard uncertainty; the others: a half-width. Range's unit.
struct UncertaintyEntry {
    std::string name;
    double value = 0.0;
    Spread distribution = Spread::rectangular;
};

/// An instrument file, schema zeroline/instrument/1.
struct Instrument {
    std::string name;
    std::string serial;
    PortSettings port;
    Language language;
    SensorRange range;
    double nominal_hz = 0.0;
    double clock_ppm = 0.0;
    std::optional<double> response_ms; ///< 10 % to 90 % of a step, sensor, its filter and sensing line together
    Calibration calibration;
    std::vector<UncertaintyEntry> uncertainty;

    /// Bounds of the calibrated range in the range's unit: as given, else the points', else the sensor's.
    [[nodiscard]] double calibrated_low() const;
    [[nodiscard]] double calibrated_high() const;
};

/// Reads an instrument from its JSON tree. Throws InputError with a JSON pointer.
[[nodiscard]] Instrument parse_instrument(const nlohmann::json& tree);

/// The tree that parse_instrument() reads back to the same instrument.
[[nodiscard]] nlohmann::json to_json(const Instrument& instrument);

} // namespace zeroline::trace
