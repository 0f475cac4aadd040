// Random bytes and damaged streams through each decoder: no crash, no growing memory, every byte accounted for.
// 5 MB each; ZEROLINE_FLOOD_MB=100 for the long run.

#include "acquisition/serial/languages/modbus_rtu.hpp"
#include "acquisition/serial/languages/numeric_lines.hpp"
#include "acquisition/serial/languages/scpi_query.hpp"
#include "tests/acquisition/serial/languages/framing.hpp"

#include <gtest/gtest.h>
#include <malloc.h>

#include <cmath>
#include <cstdlib>
#include <random>

namespace zeroline::serial::test {
namespace {

constexpr std::size_t kPiece = 4096;

std::size_t flood_bytes()
{
    const char* const megabytes = std::getenv("ZEROLINE_FLOOD_MB");
    return std::size_t{1'000'000} * static_cast<std::size_t>(megabytes == nullptr ? 5 : std::atoi(megabytes));
}

std::size_t allocated_bytes()
{
    const auto heap = ::mallinfo2();
    return heap.uordblks + heap.hblkhd;
}

/// Bytes at random, or a valid frame over and over in which about one byte of fifty is changed.
class Stream {
public:
    explicit Stream(std::string frame) : frame_(std::move(frame)) {}

    /// The next piece, as long as it likes to be, in a buffer that stays the same.
    const std::string& next()
    {
        piece_.clear();
        const std::size_t length = 1 + random_() % kPiece;
        while (piece_.size() < length) {
            frame_.empty() ? piece_.push_back(static_cast<char>(random_())) : static_cast<void>(piece_ += frame_);
        }
        for (std::size_t at = random_() % 50; !frame_.empty() && at < piece_.size(); at += 1 + random_() % 100) {
            piece_[at] = static_cast<char>(random_());
        }
        return piece_;
    }

private:
    std::string frame_;
    std::mt19937 random_{3};
    std::string piece_;
};

struct Flood {
    std::uint64_t fed = 0;
    std::uint64_t readings = 0;
};

/// Feeds the decoder, asking it for what it would send; after every piece each byte must be accounted for.
Flood flooded(Decoder& decoder, const std::string& frame, bool polled)
{
    Stream stream(frame);
    std::vector<Reading> readings;
    readings.reserve(kPiece);
    Flood flood;
    double now_s = 0.0;
    std::size_t allocated_early = 0;
    while (flood.fed < flood_bytes()) {
        const std::string& bytes = stream.next();
        // A damaged stream of answers is only listened to while one is waited for: it comes an answer at a time.
        const std::size_t at_once = polled && !frame.empty() ? frame.size() : bytes.size();
        readings.clear();
        for (std::size_t at = 0; at < bytes.size(); at += at_once) {
            now_s += 0.01;
            static_cast<void>(decoder.to_send(now_s));
            decoder.feed(std::string_view(bytes).substr(at, at_once), now_s, readings);
        }
        flood.fed += bytes.size();
        flood.readings += readings.size();
        for (const Reading& reading : readings) {
            EXPECT_NE(reading.has_note, std::isfinite(reading.value));
        }
        if (accounted_by(decoder) != flood.fed) {
            ADD_FAILURE() << accounted_by(decoder) << " bytes accounted for of " << flood.fed;
            return flood;
        }
        if (allocated_early == 0 && flood.fed > flood_bytes() / 10) {
            allocated_early = allocated_bytes();
        }
    }
    EXPECT_LT(allocated_bytes(), allocated_early + 65536) << "the decoder grows";
    EXPECT_LT(decoder.unfinished_bytes(), 1024u);
    return flood;
}

void survives_noise_and_damage(const MakeDecoder& make, const std::string& frame, bool polled)
{
    const auto in_noise = make();
    flooded(*in_noise, "", polled);
    EXPECT_GT(in_noise->discarded_bytes(), flood_bytes() / 2);
    const auto in_damage = make();
    const auto flood = flooded(*in_damage, frame, polled);
    EXPECT_GT(flood.readings, flood.fed / frame.size() / 10) << "what is whole is still read";
    EXPECT_GT(in_damage->discarded_bytes(), flood.fed / 100);
}

trace::Instrument polled(trace::Language::Kind kind)
{
    trace::Instrument instrument;
    instrument.port.baud = 115200;
    instrument.language.kind = kind;
    instrument.language.query = "READ?";
    instrument.language.timeout_s = 0.05;
    return instrument;
}

TEST(Flood, of_random_bytes_and_damaged_lines_leaves_the_line_decoder_sound)
{
    survives_noise_and_damage(
        [] {
            trace::Language language;
            language.checksum = trace::Language::Checksum::xor8;
            return std::make_unique<NumericLines>(language);
        },
        "12.5*18\r\n", false); // 0x31 ^ 0x32 ^ 0x2e ^ 0x35 = 0x18
}

TEST(Flood, of_random_bytes_and_damaged_answers_leaves_the_query_decoder_sound)
{
    survives_noise_and_damage([] { return std::make_unique<ScpiQuery>(polled(trace::Language::Kind::scpi_query)); },
                              "+1.25E+01\n", true);
}

TEST(Flood, of_random_bytes_and_damaged_frames_leaves_the_register_decoder_sound)
{
    survives_noise_and_damage([] { return std::make_unique<ModbusRtu>(polled(trace::Language::Kind::modbus_rtu)); },
                              std::string("\x01\x03\x02\x00\x0A\x38\x43", 7), true);
}

} // namespace
} // namespace zeroline::serial::test
