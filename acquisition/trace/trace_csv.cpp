#include "acquisition/trace/trace_csv.hpp"

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/trace_csv_reader.hpp"

#include <array>
#include <cerrno>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <fcntl.h>
#include <memory>
#include <sys/stat.h>
#include <system_error>

namespace zeroline::trace {

namespace {

// Large enough that its halves are worth a thread each, small enough to stay in a cache.
constexpr std::size_t kBlock = std::size_t{1} << 20U;
constexpr std::size_t kLongestRow = std::size_t{1} << 17U;

struct Closer {
    void operator()(std::FILE* file) const noexcept { std::fclose(file); }
};
using File = std::unique_ptr<std::FILE, Closer>;

[[noreturn]] void refuse_file(int error)
{
    throw InputError("", "cannot be read: " + std::generic_category().message(error), "a readable trace file");
}

std::size_t length_of(int descriptor)
{
    struct stat state {};
    return ::fstat(descriptor, &state) == 0 && state.st_size > 0 ? static_cast<std::size_t>(state.st_size) : 0;
}

/// Hands a file to the reader block by block; what a block leaves over goes in front of the next.
class BlockSource {
public:
    explicit BlockSource(File file) : file_(std::move(file)), buffer_(kBlock)
    {
        if (!file_) {
            refuse_file(errno);
        }
        std::setvbuf(file_.get(), nullptr, _IONBF, 0);
    }

    /// False at the end of the file.
    bool read_more()
    {
        const std::size_t got = std::fread(buffer_.data() + filled_, 1, buffer_.size() - filled_, file_.get());
        if (got == 0 && std::ferror(file_.get()) != 0) {
            refuse_file(errno);
        }
        filled_ += got;
        return got != 0;
    }

    [[nodiscard]] std::string_view text() const { return {buffer_.data(), filled_}; }

    void drop(std::size_t bytes)
    {
        filled_ -= bytes;
        std::memmove(buffer_.data(), buffer_.data() + bytes, filled_);
    }

private:
    File file_;
    std::vector<char> buffer_;
    std::size_t filled_ = 0;
};

void append_number(std::string& out, double value)
{
    std::array<char, 32> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), value);
    out.append(text.data(), end.ptr);
}

void append_text(std::string& out, std::string_view text)
{
    if (text.find_first_of(",;\"\r\n") == std::string_view::npos) {
        out += text;
        return;
    }
    out += '"';
    for (const char c : text) {
        out.append(c == '"' ? 2 : 1, c);
    }
    out += '"';
}

struct Word {
    NoteKind kind;
    std::string_view word;
};
constexpr std::array<Word, 5> kWords{{{NoteKind::overrange, "overrange"},
                                      {NoteKind::not_a_number, "not-a-number"},
                                      {NoteKind::checksum, "checksum"},
                                      {NoteKind::lost, "lost"},
                                      {NoteKind::back, "back"}}};

TraceCsvWriter::Columns columns_of(const RawTrace& trace)
{
    return {trace.from_arrivals, trace.unit, !trace.count.empty(), !trace.instrument_time_s.empty(),
            trace.from_arrivals || !trace.notes.empty()};
}

} // namespace

RawTrace parse_trace_csv(std::string_view text)
{
    TraceCsvReader reader(text.size());
    // In blocks, so that the length of the rows is known before much memory is asked for.
    std::size_t begin = 0;
    for (std::size_t length = kBlock; begin + length < text.size();) {
        const auto taken = reader.take(text.substr(begin, length));
        begin += taken;
        length = taken == 0 ? 2 * length : kBlock;
    }
    begin += reader.take(text.substr(begin));
    return reader.finish(text.substr(begin));
}

RawTrace read_trace_csv(int descriptor)
{
    // The stream closes what it was made from: the caller's descriptor stays open.
    BlockSource source(File(::fdopen(::fcntl(descriptor, F_DUPFD_CLOEXEC, 0), "rb")));
    TraceCsvReader reader(length_of(descriptor));
    while (source.read_more()) {
        source.drop(reader.take(source.text()));
        if (source.text().size() > kLongestRow) {
            throw InputError("line " + std::to_string(reader.line()), "a line that does not end",
                             "lines of at most " + std::to_string(kLongestRow) + " bytes");
        }
    }
    return reader.finish(source.text());
}

RawTrace load_trace_csv(const std::filesystem::path& file)
try {
    const File opened(std::fopen(file.c_str(), "rbe"));
    if (!opened) {
        refuse_file(errno);
    }
    return read_trace_csv(::fileno(opened.get()));
} catch (const InputError& error) {
    throw error.within(file.string());
}

TraceCsvWriter::TraceCsvWriter(Columns columns) : columns_(columns) {}

std::string TraceCsvWriter::header() const
{
    std::string line = columns_.from_arrivals ? "arrival_s" : "time_s";
    line += ",pressure_" + std::string(name_of(columns_.unit));
    line += columns_.count ? ",count" : "";
    line += columns_.instrument_time ? ",instrument_time_s" : "";
    line += columns_.note ? ",note" : "";
    return line + "\n";
}

void TraceCsvWriter::append_row(std::string& out, double moment_s, double pressure, std::int64_t count,
                                double instrument_time_s, std::string_view note) const
{
    append_number(out, moment_s);
    out += ',';
    if (!std::isnan(pressure)) {
        append_number(out, pressure);
    }
    if (columns_.count) {
        out += ',';
        out += count < 0 ? std::string() : std::to_string(count);
    }
    if (columns_.instrument_time) {
        out += ',';
        if (!std::isnan(instrument_time_s)) {
            append_number(out, instrument_time_s);
        }
    }
    if (columns_.note) {
        out += ',';
        append_text(out, note);
    }
    out += '\n';
}

std::string to_csv(const RawTrace& trace)
{
    const TraceCsvWriter writer(columns_of(trace));
    std::string out = writer.header();
    auto note = trace.notes.begin();
    for (std::size_t row = 0; row < trace.moment_s.size(); ++row) {
        std::string_view text;
        if (note != trace.notes.end() && note->row == row) {
            text = (note++)->text;
        }
        writer.append_row(out, trace.moment_s[row], trace.pressure[row], trace.count.empty() ? -1 : trace.count[row],
                          trace.instrument_time_s.empty() ? std::numeric_limits<double>::quiet_NaN()
                                                          : trace.instrument_time_s[row],
                          text);
    }
    return out;
}

std::string_view word_of(NoteKind kind) noexcept
{
    for (const auto& word : kWords) {
        if (word.kind == kind) {
            return word.word;
        }
    }
    return "other";
}

NoteKind note_kind_of(std::string_view word) noexcept
{
    for (const auto& known : kWords) {
        if (known.word == word) {
            return known.kind;
        }
    }
    return NoteKind::other;
}

} // namespace zeroline::trace
