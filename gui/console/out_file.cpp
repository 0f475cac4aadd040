#include "gui/console/out_file.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/evidence_files.hpp"

namespace zeroline::console {

namespace fs = std::filesystem;
using trace::InputError;

void refuse_taken(const fs::path& file)
{
    if (std::error_code none; fs::symlink_status(file, none).type() != fs::file_type::not_found) {
        throw InputError(file.string(), "is there already", "a file that does not exist yet; nothing is overwritten");
    }
}

void refuse_inside_record(const fs::path& file)
{
    std::error_code none;
    auto folder = fs::weakly_canonical(file, none).parent_path();
    for (; folder.has_relative_path(); folder = folder.parent_path()) {
        if (fs::exists(folder / records::name::record, none)) {
            throw InputError(file.string(), "lies inside a record folder",
                             "a place outside: nothing is added to a record");
        }
    }
}

} // namespace zeroline::console
