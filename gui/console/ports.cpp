#include "gui/console/command.hpp"

#include "acquisition/serial/port_list.hpp"

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include <iostream>
#include <memory>

namespace zeroline::console {

namespace {

std::string four_digits(int id)
{
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text(4, '0');
    for (std::size_t i = 4; i-- > 0; id /= 16) {
        text[i] = digits[static_cast<std::size_t>(id % 16)];
    }
    return text;
}

std::string word_of(serial::Transport transport)
{
    switch (transport) {
    case serial::Transport::usb:
        return "usb";
    case serial::Transport::bluetooth:
        return "bluetooth";
    case serial::Transport::native:
        break;
    }
    return "native";
}

nlohmann::ordered_json to_json(const serial::Port& port)
{
    nlohmann::ordered_json tree{
        {"path", port.path}, {"description", port.description}, {"transport", word_of(port.transport)}};
    if (port.usb_vendor && port.usb_product) {
        tree["usb_vendor"] = four_digits(*port.usb_vendor);
        tree["usb_product"] = four_digits(*port.usb_product);
        tree["usb_serial"] = port.usb_serial;
        tree["usb_manufacturer"] = port.usb_manufacturer;
        tree["usb_name"] = port.usb_name;
    }
    return tree;
}

void print_line(const serial::Port& port)
{
    std::cout << port.path << "  " << (port.description.empty() ? word_of(port.transport) : port.description);
    if (port.usb_vendor && port.usb_product) {
        std::cout << "  usb " << four_digits(*port.usb_vendor) << ':' << four_digits(*port.usb_product);
        if (!port.usb_serial.empty()) {
            std::cout << "  serial number " << port.usb_serial;
        }
    }
    std::cout << '\n';
}

ExitStatus list(bool as_json)
{
    const auto ports = serial::list_ports();
    if (as_json) {
        auto tree = nlohmann::ordered_json::array();
        for (const auto& port : ports) {
            tree.push_back(to_json(port));
        }
        std::cout << tree.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) << '\n';
        return ExitStatus::pass;
    }
    for (const auto& port : ports) {
        print_line(port);
    }
    if (ports.empty()) {
        std::cerr << "no serial port; 'zeroline virtual-bench' offers a simulated one\n";
    }
    return ExitStatus::pass;
}

} // namespace

void add_ports(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand("ports", "serial ports with what is plugged in");
    const auto as_json = std::make_shared<bool>(false);
    command->add_flag("--json", *as_json, "for a script");
    command->callback([&request, as_json] { request.act = [as_json] { return list(*as_json); }; });
}

} // namespace zeroline::console
