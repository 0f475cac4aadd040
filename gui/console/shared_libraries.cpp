#include "gui/console/shared_libraries.hpp"

#include <algorithm>
#include <link.h>

namespace zeroline::console {

namespace fs = std::filesystem;

namespace {

int take(::dl_phdr_info* info, std::size_t, void* files)
{
    // The program itself has no name here, and the kernel's own part of every process is no file.
    const fs::path file = info->dlpi_name;
    if (std::error_code none; fs::is_regular_file(file, none)) {
        static_cast<std::vector<fs::path>*>(files)->push_back(file);
    }
    return 0;
}

} // namespace

std::vector<fs::path> loaded_files()
{
    std::vector<fs::path> files;
    ::dl_iterate_phdr(&take, &files);
    std::sort(files.begin(), files.end());
    files.insert(files.begin(), fs::read_symlink("/proc/self/exe"));
    return files;
}

} // namespace zeroline::console
