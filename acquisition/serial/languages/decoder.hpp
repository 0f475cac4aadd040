#pragma once

#include "acquisition/serial/reading.hpp"
#include "acquisition/trace/instrument.hpp"

#include <cstddef>
#include <cstdint>
#include <limits>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace zeroline::serial {

/// A language as it is spoken on the line: bytes in, readings out; a polled language also says what to send and when.
///
/// No I/O and no clock of its own: it is fed with bytes and moments, in seconds from any one origin. The result does
/// not depend on how the bytes were cut into pieces. Memory is bounded whatever comes in. One thread at a time.
class Decoder {
public:
    Decoder() = default;
    virtual ~Decoder() = default;
    Decoder(const Decoder&) = delete;
    Decoder& operator=(const Decoder&) = delete;

    /// Takes bytes that arrived at `arrival_s`; appends what they complete to `out`.
    virtual void feed(std::string_view bytes, double arrival_s, std::vector<Reading>& out) = 0;

    /// The line was opened, lost or closed: an unfinished frame is discarded and counted, and the next bytes are
    /// taken to begin anywhere.
    virtual void restart() = 0;

    /// Bytes to send now, or nothing. A request that was not answered in time ends here, too.
    virtual std::string to_send(double now_s)
    {
        static_cast<void>(now_s);
        return {};
    }

    /// When to_send() is to be asked next; infinity for a language that only listens.
    [[nodiscard]] virtual double next_s() const { return std::numeric_limits<double>::infinity(); }

    /// Bytes that were part of nothing the instrument is known to say, in all. Line ends that stand alone are framing
    /// and do not count; unfinished frames count when they are given up.
    [[nodiscard]] std::uint64_t discarded_bytes() const noexcept { return discarded_bytes_; }

    /// Bytes that were understood (readings, answers, line ends), in all. At every moment the bytes fed are those
    /// understood, those discarded and those of the unfinished frame.
    [[nodiscard]] std::uint64_t understood_bytes() const noexcept { return understood_bytes_; }

    /// Bytes of a frame whose end has not come yet.
    [[nodiscard]] virtual std::size_t unfinished_bytes() const noexcept = 0;

    /// What kept the latest bytes from being a reading, as half a sentence ("field 3 is missing"); empty while readings
    /// come. For a person who looks for the wrong setting.
    [[nodiscard]] const std::string& trouble() const noexcept { return trouble_; }

    /// Requests of a polled language that got no answer in time, in all.
    [[nodiscard]] virtual std::uint64_t unanswered() const { return 0; }

    /// What the instrument says it is, where the language can ask; empty otherwise.
    [[nodiscard]] virtual std::string identity() const { return {}; }

protected:
    /// Hands a reading over, within what a trace may hold (trace_limits.hpp): a pressure beyond it, as sentinels for
    /// "no value" are, is overrange; a count or a time beyond it is left out, its pressure stays.
    static void deliver(Reading reading, std::vector<Reading>& out);
    void discard(std::size_t bytes, std::string trouble)
    {
        discarded_bytes_ += bytes;
        trouble_ = std::move(trouble);
    }
    void understand(std::size_t bytes) noexcept { understood_bytes_ += bytes; }
    void clear_trouble() noexcept { trouble_.clear(); }

private:
    std::uint64_t discarded_bytes_ = 0;
    std::uint64_t understood_bytes_ = 0;
    std::string trouble_;
};

/// The decoder of an instrument's language, for its line settings.
[[nodiscard]] std::unique_ptr<Decoder> decoder_for(const trace::Instrument& instrument);

} // namespace zeroline::serial
