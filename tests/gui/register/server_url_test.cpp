#include "gui/register/server_url.hpp"

#include "acquisition/trace/input_error.hpp"

#include <gmock/gmock.h>

namespace zeroline::unit_register {
namespace {

using testing::HasSubstr;
using testing::Not;
using trace::InputError;

std::string refusal(const std::string& url)
{
    try {
        (void)connection_settings(url);
    } catch (const InputError& error) {
        return error.what();
    }
    return "nothing was refused";
}

// Keywords as in the PostgreSQL documentation, 34.1.2 "Parameter Key Words".
TEST(ServerUrl, BecomesTheKeywordsOfLibpq)
{
    const auto settings = connection_settings(
        "postgresql://bench%201@server.example:6543/units?sslmode=verify-full&sslrootcert=/etc/a%27b");
    EXPECT_THAT(settings, HasSubstr("host='server.example' port='6543' user='bench 1' dbname='units' "));
    EXPECT_THAT(settings, HasSubstr("sslmode='verify-full' sslrootcert='/etc/a\\'b' "));
}

TEST(ServerUrl, LeavesToLibpqWhatItDoesNotName)
{
    const auto settings = connection_settings("postgresql:///units?host=/run/postgresql");
    EXPECT_THAT(settings, HasSubstr("dbname='units' host='/run/postgresql' "));
    EXPECT_THAT(settings, Not(HasSubstr("user=")));
    EXPECT_THAT(settings, Not(HasSubstr("port=")));
}

TEST(ServerUrl, MayHoldNoPassword)
{
    for (const auto* url : {"postgresql://a:b@host/db", "postgresql://a:@host/db", "postgresql://host/db?password=b",
                            "postgresql://host/db?sslpassword=b"}) {
        EXPECT_THAT(refusal(url), HasSubstr("a password in the URL")) << url;
        EXPECT_THAT(refusal(url), HasSubstr("pgpass")) << url;
    }
}

TEST(ServerUrl, IsRefusedInWordsWhereItIsNone)
{
    EXPECT_THAT(refusal("postgresql://ho st/db"), HasSubstr("no URL that can be read"));
    EXPECT_THAT(refusal("postgresql://host/db#x"), HasSubstr("no URL that can be read"));
    EXPECT_THAT(refusal("postgresql://host/db?a-b=c"), HasSubstr("the parameter 'a-b'"));
    EXPECT_THAT(refusal("postgresql://host/db?options=a%3Bb"), HasSubstr("a semicolon"));
}

} // namespace
} // namespace zeroline::unit_register
