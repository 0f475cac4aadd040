#pragma once

#include "acquisition/trace/input_error.hpp"

#include <string>

namespace zeroline::serial {

/// Everything that can be wrong with a port, a line or the file behind it, each as one sentence that says what was
/// tried, what came, and what to do. One function a cause; nothing here does anything but words.

/// Why `port` cannot be opened, from the system's error number.
[[nodiscard]] trace::InputError cannot_open(const std::string& port, int error_number);
[[nodiscard]] trace::InputError taken_by_another_program(const std::string& port);
[[nodiscard]] trace::InputError no_serial_device(const std::string& port);
[[nodiscard]] trace::InputError setting_refused(const std::string& port, const std::string& setting);

/// Why the trace file cannot be created or written.
[[nodiscard]] trace::InputError cannot_create_trace(const std::string& file, int error_number);
[[nodiscard]] trace::InputError trace_file_not_empty(const std::string& file);
[[nodiscard]] std::string cannot_write_trace(const std::string& file, int error_number);
[[nodiscard]] std::string disk_too_slow(const std::string& file);

/// "9600 baud, 8N1", for the sentences below and for the screen.
struct LineWords {
    std::string port;
    std::string settings;
};

/// Not one byte came.
[[nodiscard]] std::string no_byte(const LineWords& line, double seconds);
/// Bytes came, none of them a reading; `trouble` is the decoder's half sentence.
[[nodiscard]] std::string no_reading(const LineWords& line, double seconds, const std::string& trouble);
/// The polled instrument did not answer.
[[nodiscard]] std::string no_answer(const LineWords& line, double seconds, const std::string& trouble);
[[nodiscard]] std::string instrument_gone(const std::string& port, double wait_s);
[[nodiscard]] std::string instrument_stayed_away(const std::string& port, double waited_s);

} // namespace zeroline::serial
