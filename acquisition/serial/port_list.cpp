#include "acquisition/serial/port_list.hpp"

#include <libserialport.h>

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <tuple>

namespace zeroline::serial {

namespace {

std::string text_or_empty(const char* text) { return text == nullptr ? std::string() : std::string(text); }

Transport transport_of(const sp_port* port)
{
    switch (sp_get_port_transport(port)) {
    case SP_TRANSPORT_USB:
        return Transport::usb;
    case SP_TRANSPORT_BLUETOOTH:
        return Transport::bluetooth;
    case SP_TRANSPORT_NATIVE:
        break;
    }
    return Transport::native;
}

Port described(const sp_port* port)
{
    Port result;
    result.path = text_or_empty(sp_get_port_name(port));
    result.description = text_or_empty(sp_get_port_description(port));
    result.transport = transport_of(port);
    int vendor = 0;
    int product = 0;
    if (sp_get_port_usb_vid_pid(port, &vendor, &product) == SP_OK) {
        result.usb_vendor = vendor;
        result.usb_product = product;
    }
    result.usb_serial = text_or_empty(sp_get_port_usb_serial(port));
    result.usb_manufacturer = text_or_empty(sp_get_port_usb_manufacturer(port));
    result.usb_name = text_or_empty(sp_get_port_usb_product(port));
    return result;
}

// ttyS10 after ttyS9: shorter names of one family come first.
bool in_order(const Port& a, const Port& b)
{
    const auto family = [](const std::string& path) { return path.substr(0, path.find_last_not_of("0123456789") + 1); };
    return std::make_tuple(family(a.path), a.path.size(), a.path) <
           std::make_tuple(family(b.path), b.path.size(), b.path);
}

} // namespace

std::vector<Port> list_ports()
{
    std::vector<Port> ports;
    sp_port** found = nullptr;
    if (sp_list_ports(&found) != SP_OK) {
        return ports;
    }
    for (sp_port** port = found; *port != nullptr; ++port) {
        ports.push_back(described(*port));
    }
    sp_free_port_list(found);
    std::sort(ports.begin(), ports.end(), in_order);
    return ports;
}

std::optional<Port> port_at(const std::string& path)
{
    std::error_code unknown;
    const auto real = std::filesystem::canonical(path, unknown);
    if (unknown) {
        return std::nullopt;
    }
    sp_port* found = nullptr;
    if (sp_get_port_by_name(real.c_str(), &found) != SP_OK) {
        return std::nullopt;
    }
    Port port = described(found);
    sp_free_port(found);
    return port;
}

} // namespace zeroline::serial
