#include "gui/console/new_file.hpp"

#include "gui/console/out_file.hpp"
#include "gui/records/record_folder.hpp"

#include <filesystem>

namespace zeroline::console {

void write_new_file(const std::string& path, std::string_view text)
{
    refuse_taken(path);
    if (const auto folder = std::filesystem::path(path).parent_path(); !folder.empty()) {
        std::error_code none;
        std::filesystem::create_directories(folder, none); // what hinders it, writing will name
    }
    records::write_file_whole(path, text);
}

} // namespace zeroline::console
