#include "acquisition/serial/serial_link.hpp"

#include "acquisition/trace/input_error.hpp"
#include "tests/acquisition/serial/captured.hpp"
#include "tests/acquisition/serial/in_child.hpp"
#include "tests/acquisition/serial/pty_pair.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>
#include <grp.h>
#include <sys/stat.h>

#include <fstream>

namespace zeroline::serial::test {
namespace {

using testing::HasSubstr;
using testing::StartsWith;
using trace::PortSettings;

std::string refusal(const std::string& port, const PortSettings& settings = {})
{
    boost::asio::io_context io;
    SerialLink link(io);
    try {
        link.open(port, settings);
    } catch (const trace::InputError& error) {
        EXPECT_FALSE(link.is_open());
        return error.what();
    }
    return "opened";
}

termios line_of(const InstrumentEnd& instrument)
{
    termios line{};
    ::tcgetattr(instrument.descriptor(), &line);
    return line;
}

TEST(SerialLink, says_that_there_is_no_such_port)
{
    EXPECT_EQ(refusal("/dev/ttyNOWHERE0"),
              "/dev/ttyNOWHERE0: there is no such port; expected the port the instrument is "
              "plugged into: `zeroline ports` lists them");
}

TEST(SerialLink, says_that_a_file_a_folder_or_another_device_is_no_serial_port)
{
    const TemporaryFolder folder;
    const std::string file = (folder / "file").string();
    std::ofstream(file) << "1.0\n";
    for (const std::string& path : {file, (folder / "").string(), std::string("/dev/null")}) {
        EXPECT_THAT(refusal(path), StartsWith(path + ": this is no serial port")) << path;
    }
}

TEST(SerialLink, names_the_group_that_may_open_the_port)
{
    const InstrumentEnd instrument;
    ::chmod(instrument.path().c_str(), 0);
    struct stat status {};
    ASSERT_EQ(::stat(instrument.path().c_str(), &status), 0);
    const group* owner = ::getgrgid(status.st_gid);
    const std::string name = owner != nullptr ? owner->gr_name : std::to_string(status.st_gid);
    const std::string said = in_child([&] {
        constexpr uid_t kNobody = 65534;
        // The super-user may open everything.
        return ::geteuid() == 0 && ::setuid(kNobody) != 0 ? "cannot change user" : refusal(instrument.path());
    });
    EXPECT_THAT(said, HasSubstr("you may not open it; it belongs to group " + name));
    EXPECT_THAT(said, HasSubstr("sudo adduser $USER " + name));
}

TEST(SerialLink, opens_a_port_for_one_program_alone)
{
    const InstrumentEnd instrument;
    boost::asio::io_context io;
    SerialLink first(io);
    first.open(instrument.path(), {});
    EXPECT_THAT(refusal(instrument.path()), HasSubstr("another program is using it"));
    first.close();
    EXPECT_EQ(refusal(instrument.path()), "opened");
}

TEST(SerialLink, sets_rate_stop_bits_and_flow_control_and_leaves_the_line_raw)
{
    const InstrumentEnd instrument;
    boost::asio::io_context io;
    SerialLink link(io);
    PortSettings settings;
    settings.baud = 57600;
    settings.stop_bits = 2;
    settings.flow_control = trace::FlowControl::software;
    link.open(instrument.path(), settings);
    const termios line = line_of(instrument);
    EXPECT_EQ(::cfgetospeed(&line), static_cast<speed_t>(B57600));
    EXPECT_NE(line.c_cflag & CSTOPB, 0u);
    EXPECT_NE(line.c_iflag & IXOFF, 0u);
    EXPECT_EQ(line.c_lflag & (ICANON | ECHO | ISIG), 0u);
    EXPECT_EQ(line.c_oflag & OPOST, 0u);
}

TEST(SerialLink, lets_damaged_characters_show_instead_of_dropping_them_silently)
{
    const InstrumentEnd instrument;
    boost::asio::io_context io;
    SerialLink link(io);
    link.open(instrument.path(), {});
    EXPECT_EQ(line_of(instrument).c_iflag & (IGNPAR | PARMRK), 0u);
    EXPECT_EQ(link.damaged_characters(), 0u);
}

TEST(SerialLink, takes_a_rate_that_has_no_constant)
{
    const InstrumentEnd instrument;
    PortSettings settings;
    settings.baud = 250000;
    EXPECT_EQ(refusal(instrument.path(), settings), "opened");
}

TEST(SerialLink, refuses_a_setting_that_no_port_has_and_names_it)
{
    const InstrumentEnd instrument;
    PortSettings settings;
    settings.data_bits = 12;
    EXPECT_THAT(refusal(instrument.path(), settings), HasSubstr("the port does not take 12 data bits"));
}

TEST(SerialLink, takes_any_parity_at_a_pseudo_terminal_however_often_it_is_opened)
{
    const InstrumentEnd instrument;
    PortSettings settings;
    settings.data_bits = 7;
    settings.parity = trace::Parity::even;
    for (int opening = 0; opening < 3; ++opening) {
        EXPECT_EQ(refusal(instrument.path(), settings), "opened") << opening;
    }
}

TEST(SerialLink, drops_what_came_before_it_was_opened)
{
    const InstrumentEnd instrument;
    // Somebody must hold the other end open for the bytes to stay there.
    const int holder = ::open(instrument.path().c_str(), O_RDWR | O_NOCTTY);
    instrument.write("stale");
    boost::asio::io_context io;
    SerialLink link(io);
    link.open(instrument.path(), {});
    std::string received;
    link.listen([&](std::string_view bytes) { received += bytes; }, [] {});
    instrument.write("fresh");
    ASSERT_TRUE(soon([&] {
        io.poll();
        return received.size() >= 5;
    }));
    EXPECT_EQ(received, "fresh");
    ::close(holder);
}

TEST(SerialLink, tells_once_that_the_instrument_is_gone)
{
    InstrumentEnd instrument;
    boost::asio::io_context io;
    SerialLink link(io);
    link.open(instrument.path(), {});
    int gone = 0;
    std::string received;
    link.listen([&](std::string_view bytes) { received += bytes; }, [&] { ++gone; });
    instrument.write("last words");
    instrument.unplug();
    ASSERT_TRUE(soon([&] {
        io.restart();
        io.poll();
        return gone > 0;
    }));
    io.restart();
    io.run();
    EXPECT_EQ(gone, 1);
    EXPECT_FALSE(link.is_open());
}

TEST(SerialLink, tells_nothing_after_it_was_closed)
{
    const InstrumentEnd instrument;
    boost::asio::io_context io;
    SerialLink link(io);
    link.open(instrument.path(), {});
    int told = 0;
    link.listen([&](std::string_view) { ++told; }, [&] { ++told; });
    instrument.write("bytes");
    link.close();
    io.run();
    EXPECT_EQ(told, 0);
}

TEST(SerialLink, sends_in_order_and_drops_what_nobody_takes)
{
    const InstrumentEnd instrument;
    boost::asio::io_context io;
    SerialLink link(io);
    link.open(instrument.path(), {});
    link.send("one ");
    link.send("two ");
    link.send(std::string(SerialLink::kMostUnsent, 'x'));
    link.send("three");
    io.run();
    std::string came;
    for (std::string more = instrument.read(1000); !more.empty(); more = instrument.read(100)) {
        came += more;
    }
    EXPECT_EQ(came, "one two three");
    EXPECT_FALSE(link.is_sending());
}

TEST(SerialLink, puts_its_settings_in_words)
{
    PortSettings settings;
    EXPECT_EQ(in_words(settings), "9600 baud, 8N1");
    settings.baud = 19200;
    settings.parity = trace::Parity::even;
    settings.data_bits = 7;
    settings.stop_bits = 2;
    EXPECT_EQ(in_words(settings), "19200 baud, 7E2");
}

TEST(PseudoTerminal, is_told_from_devices_files_and_nothing)
{
    const InstrumentEnd instrument;
    const TemporaryFolder folder;
    std::filesystem::create_symlink(instrument.path(), folder / "link");
    EXPECT_TRUE(is_pseudo_terminal(instrument.path()));
    EXPECT_TRUE(is_pseudo_terminal((folder / "link").string()));
    EXPECT_FALSE(is_pseudo_terminal("/dev/null"));
    EXPECT_FALSE(is_pseudo_terminal("/etc/passwd"));
    EXPECT_FALSE(is_pseudo_terminal("/dev/ttyNOWHERE0"));
}

} // namespace
} // namespace zeroline::serial::test
