#include "acquisition/serial/port_list.hpp"

#include "tests/acquisition/serial/pty_pair.hpp"

#include <gmock/gmock.h>

#include <filesystem>

namespace zeroline::serial::test {
namespace {

// The system's own list of terminals that are devices of some bus.
TEST(PortList, names_only_ports_that_the_system_has)
{
    for (const Port& port : list_ports()) {
        const auto name = std::filesystem::path(port.path).filename();
        EXPECT_TRUE(std::filesystem::exists("/sys/class/tty" / name / "device")) << port.path;
        EXPECT_EQ(port.usb_vendor.has_value(), port.usb_product.has_value());
    }
}

TEST(PortList, comes_in_one_order_each_time)
{
    const auto paths = [] {
        std::vector<std::string> in_order;
        for (const Port& port : list_ports()) {
            in_order.push_back(port.path);
        }
        return in_order;
    };
    EXPECT_EQ(paths(), paths());
}

TEST(PortList, does_not_know_pseudo_terminals_and_what_is_not_there)
{
    const InstrumentEnd instrument;
    EXPECT_FALSE(port_at(instrument.path()));
    EXPECT_FALSE(port_at("/dev/ttyNOWHERE0"));
}

} // namespace
} // namespace zeroline::serial::test
