#pragma once

#include "acquisition/serial/languages/decoder.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace zeroline::serial {

/// Lines of a free-running instrument: a number, or fields of which one is the pressure.
///
/// A line ends at CR, LF or both, and at the end byte of its frame where it has one. It is a reading only where every
/// field that the instrument file names can be read and no control character stands in it; otherwise all its bytes are
/// discarded and counted. What came before the first line end after opening is discarded, since it may be the tail of a
/// longer number. An overrange word, a not-a-number or a wrong checksum is a reading without value. A line longer than
/// kLongestLine is discarded up to its end, and so is a line whose next piece comes later than kLongestPause_s. Without
/// a checksum, a line with another number of fields than the ones before is discarded too, until a second one in a row
/// has as many: a line that lost its end runs into the next one, and what stands in the field then may be a number all
/// the same.
class NumericLines final : public Decoder {
public:
    static constexpr std::size_t kLongestLine = 512;
    static constexpr double kLongestPause_s = 2.0;

    explicit NumericLines(trace::Language language);

    void feed(std::string_view bytes, double arrival_s, std::vector<Reading>& out) override;
    void restart() override;
    [[nodiscard]] std::size_t unfinished_bytes() const noexcept override { return unfinished_.size(); }

    /// What comes next is the beginning of a line: an answer to a question.
    void begin_with_whole_line() noexcept { skipping_ = false; }
    [[nodiscard]] bool ends_line(char c) const noexcept;
    /// The unit that stood on the latest line, where `unit_field` says that one does.
    [[nodiscard]] std::optional<trace::PressureUnit> latest_unit() const noexcept { return latest_unit_; }

private:
    void keep(std::string_view piece);
    void end_line(std::string_view last_piece, double arrival_s, std::vector<Reading>& out);
    void give_up_unfinished(std::string trouble);
    void take_line(std::string_view line, double arrival_s, std::vector<Reading>& out);
    [[nodiscard]] std::optional<std::string_view> without_frame(std::string_view line);
    [[nodiscard]] std::optional<std::string_view> without_checksum(std::string_view line, Reading& reading);
    [[nodiscard]] std::optional<std::string_view> without_prefix(std::string_view line);
    [[nodiscard]] std::optional<std::string_view> checked(std::string_view line, Reading& reading);
    [[nodiscard]] bool read_fields(std::string_view text, Reading& reading);
    [[nodiscard]] bool has_usual_shape();
    [[nodiscard]] bool read_value(Reading& reading);
    [[nodiscard]] bool read_unit_on_line(std::string_view& number, double& factor);
    [[nodiscard]] bool read_counters(Reading& reading);
    void split(std::string_view text);
    void split_at_blanks(std::string_view text);
    [[nodiscard]] std::optional<std::string_view> field(int number, const std::string& name);
    [[nodiscard]] std::optional<std::string_view> field_named(const std::string& name);
    [[nodiscard]] bool unit_stands_with_pressure() const noexcept;

    trace::Language language_;
    bool blanks_separate_ = false;
    std::string unfinished_; ///< the line so far, at most kLongestLine
    bool skipping_ = true;   ///< until the next line end, whatever comes is discarded
    double last_arrival_s_ = 0.0;
    std::vector<std::string_view> fields_;
    std::size_t usual_fields_ = 0; ///< of a line; 0: none was taken yet
    std::size_t other_fields_ = 0; ///< of the latest line, where it had another number
    std::optional<trace::PressureUnit> latest_unit_;
    std::size_t torn_ = 0; ///< bytes of the line at hand before its frame
    std::string refusal_;  ///< why the line at hand is no reading
};

} // namespace zeroline::serial
