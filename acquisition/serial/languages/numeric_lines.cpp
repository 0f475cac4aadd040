#include "acquisition/serial/languages/numeric_lines.hpp"

#include "acquisition/serial/languages/checksums.hpp"
#include "acquisition/serial/languages/number_text.hpp"
#include "acquisition/serial/languages/shown_text.hpp"

#include <algorithm>
#include <charconv>
#include <utility>

namespace zeroline::serial {

namespace {

using trace::Language;
using trace::NoteKind;

constexpr std::size_t kMostFields = 64;

bool is_control(char c) noexcept
{
    const auto byte = static_cast<unsigned char>(c);
    return (byte < 0x20 && c != '\t') || byte == 0x7f;
}

// Instruments write HPA or cmh2o; none of our units differ in case only.
std::optional<trace::PressureUnit> unit_written(std::string_view text)
{
    const auto units = trace::all_pressure_units();
    const auto found = std::find_if(units.begin(), units.end(), [text](trace::PressureUnit unit) {
        const std::string_view name = trace::name_of(unit);
        return std::equal(name.begin(), name.end(), text.begin(), text.end(),
                          [](char a, char b) { return lower(a) == lower(b); });
    });
    return found == units.end() ? std::nullopt : std::optional(*found);
}

std::size_t hex_digits(Language::Checksum checksum) noexcept
{
    return checksum == Language::Checksum::xor8 || checksum == Language::Checksum::sum8 ? 2 : 4;
}

unsigned summed(Language::Checksum checksum, std::string_view bytes)
{
    switch (checksum) {
    case Language::Checksum::xor8:
        return xor8(bytes);
    case Language::Checksum::sum8:
        return sum8(bytes);
    case Language::Checksum::crc16_ccitt:
        return crc16_ccitt(bytes);
    case Language::Checksum::none:
    case Language::Checksum::crc16_modbus:
        break;
    }
    return crc16_modbus(bytes);
}

bool has_control(std::string_view text) { return std::any_of(text.begin(), text.end(), is_control); }

std::string_view unquoted(std::string_view text) noexcept
{
    const bool quoted = text.size() >= 2 && text.front() == '"' && text.back() == '"';
    return quoted ? trimmed(text.substr(1, text.size() - 2)) : text;
}

// Where to look for the end of the field that begins a text: behind its quotation marks.
std::size_t behind_quotes(std::string_view text) noexcept
{
    const auto begin = text.find_first_not_of(" \t");
    if (begin == std::string_view::npos || text[begin] != '"') {
        return 0;
    }
    const auto close = text.find('"', begin + 1);
    return close == std::string_view::npos ? 0 : close + 1;
}

std::string field_in_words(int number, const std::string& name)
{
    return "field " + (name.empty() ? std::to_string(number) : shown(name));
}

std::optional<unsigned> read_hex(std::string_view text, std::size_t digits)
{
    unsigned value = 0;
    const char* const end = text.data() + text.size();
    const auto [stopped, error] = std::from_chars(text.data(), end, value, 16);
    return text.size() == digits && error == std::errc{} && stopped == end ? std::optional(value) : std::nullopt;
}

// NMEA 0183's convention: the mark that opens a sentence is neither summed nor part of the first field.
std::string_view without_opening_mark(std::string_view text) noexcept
{
    return !text.empty() && (text.front() == '$' || text.front() == '!') ? text.substr(1) : text;
}

void mark(Reading& reading, NoteKind note) noexcept
{
    reading.has_note = true;
    reading.note = note;
}

} // namespace

NumericLines::NumericLines(Language language)
    : language_(std::move(language)),
      blanks_separate_(!language_.separator.empty() && language_.separator.find_first_not_of(' ') == std::string::npos)
{
    unfinished_.reserve(kLongestLine);
    fields_.reserve(kMostFields);
}

void NumericLines::restart()
{
    give_up_unfinished({});
    skipping_ = true;
    usual_fields_ = 0;
}

void NumericLines::give_up_unfinished(std::string trouble)
{
    if (!unfinished_.empty()) {
        discard(unfinished_.size(), std::move(trouble));
        unfinished_.clear();
    }
}

void NumericLines::feed(std::string_view bytes, double arrival_s, std::vector<Reading>& out)
{
    if (!unfinished_.empty() && arrival_s - last_arrival_s_ > kLongestPause_s) {
        give_up_unfinished("a line was broken off");
        skipping_ = true;
    }
    last_arrival_s_ = arrival_s;
    while (!bytes.empty()) {
        const auto end = std::find_if(bytes.begin(), bytes.end(), [this](char c) { return ends_line(c); });
        const std::string_view piece = bytes.substr(0, static_cast<std::size_t>(end - bytes.begin()));
        if (end == bytes.end()) {
            keep(piece);
            return;
        }
        end_line(piece, arrival_s, out);
        bytes.remove_prefix(piece.size() + 1);
    }
}

bool NumericLines::ends_line(char c) const noexcept
{
    return is_line_end(c) || (!language_.frame_end.empty() && c == language_.frame_end.front());
}

void NumericLines::keep(std::string_view piece)
{
    if (!skipping_ && unfinished_.size() + piece.size() > kLongestLine) {
        give_up_unfinished({});
        skipping_ = true;
    }
    if (skipping_) {
        discard(piece.size(), "no line end in what arrives");
        return;
    }
    unfinished_ += piece;
}

void NumericLines::end_line(std::string_view last_piece, double arrival_s, std::vector<Reading>& out)
{
    if (skipping_) {
        discard(last_piece.size() + 1, trouble());
        skipping_ = false;
        return;
    }
    if (unfinished_.empty()) {
        take_line(last_piece, arrival_s, out);
        return;
    }
    keep(last_piece);
    if (skipping_) {
        discard(1, "a line is too long");
        skipping_ = false;
        return;
    }
    take_line(unfinished_, arrival_s, out);
    unfinished_.clear();
}

void NumericLines::take_line(std::string_view line, double arrival_s, std::vector<Reading>& out)
{
    if (line.empty()) {
        understand(1);
        return;
    }
    Reading reading;
    reading.arrival_s = arrival_s;
    refusal_.clear();
    torn_ = 0;
    const auto text = checked(line, reading);
    const bool damaged = text && reading.has_note;
    if (text && !damaged && read_fields(*text, reading)) {
        discard(torn_, {});
        understand(line.size() + 1 - torn_);
        deliver(reading, out);
        return;
    }
    if (damaged) {
        deliver(reading, out);
    }
    discard(line.size() + 1, std::move(refusal_));
}

std::optional<std::string_view> NumericLines::checked(std::string_view line, Reading& reading)
{
    if (line.size() > kLongestLine) {
        refusal_ = "a line is too long";
        return std::nullopt;
    }
    auto text = without_frame(line);
    text = text ? without_checksum(*text, reading) : text;
    return text && !reading.has_note ? without_prefix(*text) : text;
}

// Where a frame lost its end, the next one begins at the last start byte.
std::optional<std::string_view> NumericLines::without_frame(std::string_view line)
{
    const auto at = language_.frame_start.empty() ? std::string_view::npos : line.rfind(language_.frame_start);
    if (!language_.frame_start.empty() && at == std::string_view::npos) {
        refusal_ = "a line lacks its start byte: " + shown(line);
        return std::nullopt;
    }
    torn_ = at == std::string_view::npos ? 0 : at;
    return at == std::string_view::npos ? line : line.substr(at + 1);
}

std::optional<std::string_view> NumericLines::without_checksum(std::string_view line, Reading& reading)
{
    const bool has_sum = language_.checksum != Language::Checksum::none;
    const auto at = has_sum ? line.rfind(language_.checksum_separator) : std::string_view::npos;
    const auto text = line.substr(0, at);
    if (has_control(text)) {
        refusal_ = "bytes arrive that are no text";
        return std::nullopt;
    }
    if (!has_sum) {
        return text;
    }
    const auto digits = at == std::string_view::npos ? std::string_view()
                                                     : trimmed(line.substr(at + language_.checksum_separator.size()));
    const auto sent = read_hex(digits, hex_digits(language_.checksum));
    if (!sent) {
        refusal_ = has_control(digits) ? "bytes arrive that are no text" : "a line carries no checksum: " + shown(line);
        return std::nullopt;
    }
    if (*sent != summed(language_.checksum, without_opening_mark(text))) {
        mark(reading, NoteKind::checksum);
        refusal_ = "a checksum does not fit: " + shown(line);
    }
    return text;
}

// A prefix is written as it stands on the line; without one, the mark of a sentence with a checksum is left out.
std::optional<std::string_view> NumericLines::without_prefix(std::string_view line)
{
    if (language_.prefix.empty()) {
        return language_.checksum == Language::Checksum::none ? line : without_opening_mark(line);
    }
    if (!line.starts_with(language_.prefix)) {
        refusal_ = "a line does not begin with " + shown(language_.prefix) + ": " + shown(line);
        return std::nullopt;
    }
    return line.substr(language_.prefix.size());
}

bool NumericLines::read_fields(std::string_view text, Reading& reading)
{
    split(text);
    return read_value(reading) && read_counters(reading) && has_usual_shape();
}

bool NumericLines::has_usual_shape()
{
    const std::size_t fields = fields_.size();
    if (language_.checksum != Language::Checksum::none || usual_fields_ == 0 || fields == usual_fields_ ||
        fields == std::exchange(other_fields_, fields)) {
        usual_fields_ = fields;
        other_fields_ = 0;
        return true;
    }
    refusal_ = "a line has " + std::to_string(fields) + " fields, those before had " + std::to_string(usual_fields_);
    return false;
}

// A sign that stands apart ("- 12.3") belongs to the number behind it.
void NumericLines::split_at_blanks(std::string_view text)
{
    for (text = trimmed(text); !text.empty() && fields_.size() < kMostFields; text = trimmed(text)) {
        std::size_t end = std::min(text.find_first_of(" \t", behind_quotes(text)), text.size());
        if (end == 1 && (text.front() == '-' || text.front() == '+')) {
            const std::size_t number = std::min(text.find_first_not_of(" \t", end), text.size());
            end = std::min(text.find_first_of(" \t", number), text.size());
        }
        fields_.push_back(text.substr(0, end));
        text.remove_prefix(end);
    }
}

void NumericLines::split(std::string_view text)
{
    fields_.clear();
    if (blanks_separate_) {
        split_at_blanks(text);
        return;
    }
    const std::string& separator = language_.separator;
    while (fields_.size() < kMostFields) {
        const auto end = separator.empty() ? std::string_view::npos : text.find(separator, behind_quotes(text));
        fields_.push_back(trimmed(text.substr(0, end)));
        if (end == std::string_view::npos) {
            return;
        }
        text.remove_prefix(end + separator.size());
    }
}

std::optional<std::string_view> NumericLines::field_named(const std::string& name)
{
    for (const std::string_view field : fields_) {
        const auto mark = field.find(language_.name_mark);
        if (mark != std::string_view::npos && unquoted(trimmed(field.substr(0, mark))) == name) {
            return unquoted(trimmed(field.substr(mark + language_.name_mark.size())));
        }
    }
    refusal_ = "a line has no field named " + shown(name);
    return std::nullopt;
}

bool NumericLines::unit_stands_with_pressure() const noexcept
{
    return *language_.unit_field == language_.field && language_.names.unit == language_.names.pressure;
}

std::optional<std::string_view> NumericLines::field(int number, const std::string& name)
{
    if (!name.empty()) {
        return field_named(name);
    }
    const auto index = static_cast<std::size_t>(number - 1);
    if (number < 1 || index >= fields_.size()) {
        refusal_ = "field " + std::to_string(number) + " is missing, a line has " + std::to_string(fields_.size()) +
                   (fields_.size() == 1 ? " field" : " fields");
        return std::nullopt;
    }
    return unquoted(fields_[index]);
}

bool NumericLines::read_value(Reading& reading)
{
    const auto found = field(language_.field, language_.names.pressure);
    if (!found) {
        return false;
    }
    const auto& words = language_.overrange_words;
    if (std::find(words.begin(), words.end(), *found) != words.end()) {
        mark(reading, NoteKind::overrange);
        return true;
    }
    std::string_view number = *found;
    double factor = 1.0;
    if (!read_unit_on_line(number, factor)) {
        return false;
    }
    const NumberText read = read_number(number, language_.decimal);
    switch (read.kind) {
    case NumberKind::finite:
        reading.value = factor * (read.value * language_.scale + language_.offset);
        return true;
    case NumberKind::overrange:
        mark(reading, NoteKind::overrange);
        return true;
    case NumberKind::not_a_number:
        mark(reading, NoteKind::not_a_number);
        return true;
    case NumberKind::none:
        break;
    }
    refusal_ = field_in_words(language_.field, language_.names.pressure) + " is no number: " + shown(number);
    return false;
}

bool NumericLines::read_unit_on_line(std::string_view& number, double& factor)
{
    if (!language_.unit_field) {
        return true;
    }
    auto unit = field(*language_.unit_field, language_.names.unit);
    if (!unit) {
        return false;
    }
    if (unit_stands_with_pressure()) {
        // An e belongs to the exponent; no unit begins with one.
        const auto letter = number.find_first_of("abcdfghijklmnopqrstuvwxyzABCDFGHIJKLMNOPQRSTUVWXYZ");
        const auto begin = std::min(letter, number.size());
        unit = trimmed(number.substr(begin));
        number = trimmed(number.substr(0, begin));
    }
    const auto written = unit_written(*unit);
    if (!written) {
        refusal_ = "the unit on the line is not known: " + shown(*unit);
        return false;
    }
    latest_unit_ = written;
    factor = *written == language_.unit ? 1.0 : trace::pascal_per(*written) / trace::pascal_per(language_.unit);
    return true;
}

bool NumericLines::read_counters(Reading& reading)
{
    if (language_.count_field) {
        const auto text = field(*language_.count_field, language_.names.count);
        const auto count = text ? read_count(*text) : std::nullopt;
        if (!count) {
            refusal_ =
                text ? field_in_words(*language_.count_field, language_.names.count) + " is no counter: " + shown(*text)
                     : refusal_;
            return false;
        }
        reading.count = *count;
    }
    if (language_.time_field) {
        const auto text = field(*language_.time_field, language_.names.time);
        const NumberText time = text ? read_number(*text, language_.decimal) : NumberText{};
        if (time.kind != NumberKind::finite) {
            refusal_ =
                text ? field_in_words(*language_.time_field, language_.names.time) + " is no time: " + shown(*text)
                     : refusal_;
            return false;
        }
        reading.instrument_time_s = time.value * language_.time_scale_s;
    }
    return true;
}

} // namespace zeroline::serial
