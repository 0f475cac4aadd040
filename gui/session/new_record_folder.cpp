#include "gui/session/new_record_folder.hpp"

#include <cctype>
#include <string>
#include <system_error>

namespace zeroline::session {

namespace fs = std::filesystem;

namespace {

std::string fit_for_a_name(const std::string& text)
{
    std::string fit;
    for (const char letter : text) {
        const bool plain = std::isalnum(static_cast<unsigned char>(letter)) != 0 || letter == '-' || letter == '_';
        fit += plain ? letter : '_';
    }
    return fit.substr(0, 40);
}

} // namespace

fs::path new_record_folder(const fs::path& parent, const verification::WorkOrder& order, const QString& stamp)
{
    const auto name =
        stamp.toStdString() + "-" + fit_for_a_name(order.unit.asset) + "-" + fit_for_a_name(order.work_order);
    const auto taken = [](const fs::path& folder) {
        std::error_code none;
        return fs::exists(folder, none) || fs::exists(folder.string() + ".part", none);
    };
    auto folder = parent / name;
    for (int number = 2; taken(folder); ++number) {
        folder = parent / (name + "-" + std::to_string(number));
    }
    return folder;
}

} // namespace zeroline::session
