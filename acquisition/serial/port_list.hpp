#pragma once

#include <optional>
#include <string>
#include <vector>

namespace zeroline::serial {

enum class Transport { native, usb, bluetooth };

/// A serial port of this machine and what is plugged into it. Texts are empty where the system knows nothing.
struct Port {
    std::string path; ///< e.g. "/dev/ttyUSB0"
    std::string description;
    Transport transport = Transport::native;
    std::optional<int> usb_vendor;  ///< 0 to 0xFFFF
    std::optional<int> usb_product; ///< 0 to 0xFFFF
    std::string usb_serial;         ///< serial number of the adapter or instrument
    std::string usb_manufacturer;
    std::string usb_name;
};

/// The ports there are now, in the order of their paths, numbers by size; none is no error. Any thread.
/// Pseudo-terminals are not listed.
[[nodiscard]] std::vector<Port> list_ports();

/// The port of that path, links followed; nothing where the system does not list it.
[[nodiscard]] std::optional<Port> port_at(const std::string& path);

} // namespace zeroline::serial
