#include "acquisition/serial/find.hpp"

#include "acquisition/serial/languages/checksums.hpp"
#include "acquisition/trace/input_error.hpp"
#include "tests/acquisition/serial/captured.hpp"
#include "tests/acquisition/serial/pty_pair.hpp"

#include <gmock/gmock.h>

#include <atomic>

namespace zeroline::serial::test {
namespace {

using testing::HasSubstr;

SearchSettings search_on(const std::string& port)
{
    SearchSettings settings;
    settings.port = port;
    settings.listen_s = 0.15;
    settings.may_ask = false;
    return settings;
}

// Answers or talks in the background, as an instrument does.
class Player {
public:
    explicit Player(std::function<void()> turn)
        : thread_([this, turn] {
              while (!done_) {
                  turn();
              }
          })
    {
    }
    ~Player()
    {
        done_ = true;
        thread_.join();
    }
    Player(const Player&) = delete;
    Player& operator=(const Player&) = delete;

private:
    std::atomic<bool> done_ = false;
    std::thread thread_;
};

TEST(Find, reads_an_instrument_that_talks_by_itself)
{
    const InstrumentEnd instrument;
    int count = 0;
    const Player player([&] {
        instrument.write(std::to_string(++count) + ",1.25\r\n");
        std::this_thread::sleep_for(2ms);
    });
    const SearchResult found = find_settings(search_on(instrument.path()));
    ASSERT_FALSE(found.fits.empty());
    EXPECT_EQ(found.fits[0].language.field, 2);
    EXPECT_EQ(found.fits[0].language.count_field, 1);
    EXPECT_THAT(found.fits[0].example, HasSubstr(",1.25"));
    EXPECT_EQ(found.fits[0].reads, 1.25);
    EXPECT_FALSE(found.fits[0].unit_is_stated);
    EXPECT_GT(found.fits[0].rate_hz, 10.0);
}

TEST(Find, asks_an_instrument_that_only_answers)
{
    const InstrumentEnd instrument;
    const Player player([&] {
        const std::string asked = instrument.read(20);
        if (asked.find("*IDN?") != std::string::npos) {
            instrument.write("example,module,7,0\n");
        } else if (asked.find("MEAS?") != std::string::npos) {
            instrument.write("+1.5E+00\n");
        }
    });
    SearchSettings settings = search_on(instrument.path());
    settings.may_ask = true;
    const SearchResult found = find_settings(settings);
    ASSERT_EQ(found.fits.size(), 1u);
    EXPECT_EQ(found.fits[0].language.query, "MEAS?");
    EXPECT_EQ(found.fits[0].reads, 1.5);
    EXPECT_EQ(found.fits[0].identity, "example,module,7,0");
}

// An exception says that rate and parity are right: the search goes through the registers, not through other rates.
TEST(Find, looks_for_the_register_where_an_instrument_refuses_the_first_one)
{
    const InstrumentEnd instrument;
    const Player player([&] {
        const std::string request = instrument.read(20);
        if (request.size() != 8) {
            return;
        }
        const bool known = request[1] == 3 && request[3] == 2;
        const std::string answer = known ? std::string("\x01\x03\x02\x00\x0A", 5)
                                         : std::string("\x01", 1) + static_cast<char>(request[1] | 0x80) + "\x02";
        const auto crc = crc16_modbus(answer);
        instrument.write(answer + static_cast<char>(crc & 0xFF) + static_cast<char>(crc >> 8));
    });
    SearchSettings settings = search_on(instrument.path());
    settings.may_ask = true;
    const SearchResult found = find_settings(settings);
    ASSERT_EQ(found.fits.size(), 1u);
    EXPECT_EQ(found.fits[0].language.first_register, 2);
    EXPECT_EQ(found.fits[0].language.function, 3);
    EXPECT_EQ(found.fits[0].port.baud, 9600) << "the first rate";
}

TEST(Find, says_that_not_one_byte_came)
{
    const InstrumentEnd instrument;
    const SearchResult found = find_settings(search_on(instrument.path()));
    EXPECT_TRUE(found.fits.empty());
    EXPECT_THAT(found.sentence, HasSubstr("not one byte came from " + instrument.path()));
    EXPECT_THAT(found.sentence, HasSubstr("check the cable"));
}

TEST(Find, says_that_lines_came_without_a_number)
{
    const InstrumentEnd instrument;
    const Player player([&] {
        instrument.write("READY\r\n");
        std::this_thread::sleep_for(2ms);
    });
    const SearchResult found = find_settings(search_on(instrument.path()));
    EXPECT_TRUE(found.fits.empty());
    EXPECT_THAT(found.sentence, HasSubstr("(\"READY\"), but no field with a number in each"));
}

TEST(Find, names_a_unit_that_is_not_known_and_proposes_nothing)
{
    const InstrumentEnd instrument;
    const Player player([&] {
        instrument.write("-400.3 furlong\r\n");
        std::this_thread::sleep_for(2ms);
    });
    const SearchResult found = find_settings(search_on(instrument.path()));
    EXPECT_TRUE(found.fits.empty());
    EXPECT_THAT(found.sentence, HasSubstr("the unit \"furlong\" behind the number is not known (cmH2O, mmH2O, "));
}

TEST(Find, stops_when_told_to)
{
    const InstrumentEnd instrument;
    SearchSettings settings = search_on(instrument.path());
    std::vector<std::string> told;
    settings.progress = [&](const std::string& what) {
        told.push_back(what);
        return false;
    };
    EXPECT_TRUE(find_settings(settings).fits.empty());
    EXPECT_THAT(told, testing::ElementsAre("listening at 9600 baud, 8N1"));
}

TEST(Find, refuses_a_port_that_is_not_there)
{
    EXPECT_THROW(static_cast<void>(find_settings(search_on("/dev/ttyNOWHERE0"))), trace::InputError);
}

} // namespace
} // namespace zeroline::serial::test
