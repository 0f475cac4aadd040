#include "acquisition/serial/way_back.hpp"

#include "acquisition/serial/capture.hpp"
#include "acquisition/serial/port_list.hpp"

#include <sys/stat.h>

#include <filesystem>
#include <system_error>
#include <utility>

namespace zeroline::serial {

namespace {

std::string followed(const std::string& path)
{
    std::error_code missing;
    const auto real = std::filesystem::canonical(path, missing);
    return missing ? std::string() : real.string();
}

std::string traits_of_link(const std::string& path)
{
    struct stat status = {};
    if (::lstat(path.c_str(), &status) != 0 || !S_ISLNK(status.st_mode)) {
        return {};
    }
    return std::to_string(status.st_ino) + "/" + std::to_string(status.st_ctim.tv_sec) + "/" +
           std::to_string(status.st_ctim.tv_nsec);
}

} // namespace

WayBack::WayBack(std::string path) : path_(std::move(path)) { found_at(path_); }

void WayBack::found_at(const std::string& path)
{
    path_ = path;
    target_ = followed(path);
    link_traits_ = traits_of_link(path);
    pseudo_terminal_ = is_pseudo_terminal(path);
    const auto port = port_at(path);
    usb_serial_ = port ? port->usb_serial : std::string();
    usb_vendor_ = port ? port->usb_vendor.value_or(-1) : -1;
    usb_product_ = port ? port->usb_product.value_or(-1) : -1;
}

std::string WayBack::find() const
{
    if (!followed(path_).empty() && may_be_the_same()) {
        return path_;
    }
    return elsewhere();
}

bool WayBack::may_be_the_same() const
{
    if (pseudo_terminal_ || is_pseudo_terminal(path_)) {
        const std::string traits = traits_of_link(path_);
        return !traits.empty() && (traits != link_traits_ || followed(path_) != target_);
    }
    if (usb_serial_.empty()) {
        return true;
    }
    const auto port = port_at(path_);
    return !port || port->usb_serial.empty() || port->usb_serial == usb_serial_;
}

std::string WayBack::elsewhere() const
{
    if (usb_serial_.empty()) {
        return {};
    }
    for (const Port& port : list_ports()) {
        if (port.usb_serial == usb_serial_ && port.usb_vendor.value_or(-1) == usb_vendor_ &&
            port.usb_product.value_or(-1) == usb_product_) {
            return port.path;
        }
    }
    return {};
}

} // namespace zeroline::serial
