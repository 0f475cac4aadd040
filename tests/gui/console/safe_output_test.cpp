#include "gui/console/safe_output.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

namespace zeroline::console {
namespace {

TEST(SafeOutput, lets_no_control_character_through_however_the_text_is_cut)
{
    const std::string written = "signed by A\x1B[2K\rintact \xC2\x9B"
                                "1m \xE2\x80\xAEtcatni M\xC3\xBCller\n";
    const std::string shown = "signed by A\\u001b[2K\\u000dintact \\u009b1m \\u202etcatni M\xC3\xBCller\n";
    for (std::size_t length = 1; length <= written.size(); ++length) {
        std::ostringstream out;
        {
            const SafeOutput safe(out);
            for (std::size_t at = 0; at < written.size(); at += length) {
                out << written.substr(at, length) << std::flush;
            }
        }
        EXPECT_EQ(out.str(), shown) << "in pieces of " << length;
    }
}

TEST(SafeOutput, gives_the_stream_its_own_buffer_back)
{
    std::ostringstream out;
    {
        const SafeOutput safe(out);
        out << "\xC3";
    }
    out << "\x1B";
    EXPECT_EQ(out.str(), "\\xc3\x1B");
}

TEST(SafeOutput, json_stays_the_same_json)
{
    std::ostringstream out;
    {
        const SafeOutput safe(out);
        out << "{\"name\": \"\xC2\x9B\xE2\x80\xAE\"}";
    }
    EXPECT_EQ(out.str(), "{\"name\": \"\\u009b\\u202e\"}");
}

TEST(SafeOutput, a_stream_that_cannot_be_written_is_seen)
{
    std::ofstream full("/dev/full");
    const SafeOutput safe(full);
    full << std::string(100000, 'x') << std::flush;
    EXPECT_FALSE(full.good());
}

} // namespace
} // namespace zeroline::console
