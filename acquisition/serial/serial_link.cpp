#include "acquisition/serial/serial_link.hpp"

#include "acquisition/serial/capture.hpp"
#include "acquisition/serial/device.hpp"
#include "acquisition/serial/line_errors.hpp"

#include <utility>

namespace zeroline::serial {

namespace {

namespace asio = boost::asio;
using trace::FlowControl;
using trace::Parity;
using trace::PortSettings;

constexpr std::size_t kReadAtOnce = 65536;

asio::serial_port::parity parity_of(const PortSettings& settings)
{
    using Option = asio::serial_port::parity;
    switch (settings.parity) {
    case Parity::even:
        return Option(Option::even);
    case Parity::odd:
        return Option(Option::odd);
    case Parity::none:
        break;
    }
    return Option(Option::none);
}

asio::serial_port::flow_control flow_control_of(const PortSettings& settings)
{
    using Option = asio::serial_port::flow_control;
    switch (settings.flow_control) {
    case FlowControl::hardware:
        return Option(Option::hardware);
    case FlowControl::software:
        return Option(Option::software);
    case FlowControl::none:
        break;
    }
    return Option(Option::none);
}

asio::serial_port::stop_bits stop_bits_of(const PortSettings& settings)
{
    using Option = asio::serial_port::stop_bits;
    return Option(settings.stop_bits == 2 ? Option::two : Option::one);
}

template <typename Option>
void set(asio::serial_port& port, const Option& option, const std::string& path, const std::string& words)
{
    boost::system::error_code refused;
    port.set_option(option, refused);
    if (refused) {
        throw setting_refused(path, words);
    }
}

void set_baud(asio::serial_port& port, int baud, const std::string& path)
{
    boost::system::error_code refused;
    port.set_option(asio::serial_port::baud_rate(static_cast<unsigned>(baud)), refused);
    if (refused && !set_any_baud(port.native_handle(), baud)) {
        throw setting_refused(path, std::to_string(baud) + " baud");
    }
}

void set_line(asio::serial_port& port, const PortSettings& settings, const std::string& path)
{
    if (settings.data_bits < 5 || settings.data_bits > 8) { // Asio would throw an error of its own
        throw setting_refused(path, std::to_string(settings.data_bits) + " data bits");
    }
    // A pseudo-terminal has no bits on a wire: it keeps eight and no parity, and refuses others where nothing else
    // changes.
    if (!is_pseudo_terminal(path)) {
        set(port, asio::serial_port::character_size(static_cast<unsigned>(settings.data_bits)), path,
            std::to_string(settings.data_bits) + " data bits");
        set(port, parity_of(settings), path, "this parity");
    }
    set(port, stop_bits_of(settings), path, std::to_string(settings.stop_bits) + " stop bits");
    set(port, flow_control_of(settings), path, "this flow control");
    // Last: the other settings would write a rate that has no constant back as one that has.
    set_baud(port, settings.baud, path);
}

} // namespace

SerialLink::SerialLink(asio::io_context& io) : port_(io), received_(kReadAtOnce) {}

void SerialLink::open(const std::string& path, const PortSettings& settings)
{
    close();
    port_.assign(open_alone(path));
    try {
        set_line(port_, settings, path);
        prepare(port_.native_handle(), settings);
    } catch (...) {
        close();
        throw;
    }
    damaged_at_opening_ = serial::damaged_characters(port_.native_handle());
}

void SerialLink::listen(OnBytes on_bytes, OnGone on_gone)
{
    on_bytes_ = std::move(on_bytes);
    on_gone_ = std::move(on_gone);
    read();
}

void SerialLink::read()
{
    port_.async_read_some(asio::buffer(received_),
                          [this, opening = opening_](boost::system::error_code error, std::size_t bytes) {
                              if (opening != opening_) {
                                  return;
                              }
                              if (error) {
                                  gone();
                                  return;
                              }
                              on_bytes_(std::string_view(received_.data(), bytes));
                              if (opening == opening_) {
                                  read();
                              }
                          });
}

void SerialLink::gone()
{
    close();
    if (on_gone_) {
        on_gone_();
    }
}

void SerialLink::send(std::string bytes)
{
    if (bytes.empty() || !port_.is_open() || unsent_bytes_ + bytes.size() > kMostUnsent) {
        return;
    }
    unsent_bytes_ += bytes.size();
    unsent_.push_back(std::move(bytes));
    if (unsent_.size() == 1) {
        write();
    }
}

void SerialLink::write()
{
    asio::async_write(port_, asio::buffer(unsent_.front()),
                      [this, opening = opening_](boost::system::error_code error, std::size_t) {
                          if (opening != opening_ || error) {
                              return; // a line that is gone shows in the read
                          }
                          unsent_bytes_ -= unsent_.front().size();
                          unsent_.pop_front();
                          if (!unsent_.empty()) {
                              write();
                          }
                      });
}

bool SerialLink::is_sending()
{
    return port_.is_open() && (!unsent_.empty() || unsent_bytes(port_.native_handle()) > 0);
}

void SerialLink::close()
{
    ++opening_;
    unsent_.clear();
    unsent_bytes_ = 0;
    if (!port_.is_open()) {
        return;
    }
    // Closing waits for what the driver has not sent, up to half a minute where the other end holds the line.
    if (unsent_bytes(port_.native_handle()) > 0) {
        drop_unsent(port_.native_handle());
    }
    boost::system::error_code ignored;
    port_.close(ignored);
}

std::uint64_t SerialLink::damaged_characters()
{
    return port_.is_open() ? serial::damaged_characters(port_.native_handle()) - damaged_at_opening_ : 0;
}

std::string in_words(const PortSettings& settings)
{
    const char parity = settings.parity == Parity::even ? 'E' : settings.parity == Parity::odd ? 'O' : 'N';
    return std::to_string(settings.baud) + " baud, " + std::to_string(settings.data_bits) + parity +
           std::to_string(settings.stop_bits);
}

} // namespace zeroline::serial
