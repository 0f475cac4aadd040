#include "gui/console/asked_file.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/record_folder.hpp"

#include <sstream>
#include <utility>

namespace zeroline::console {

namespace fs = std::filesystem;

fs::path asked_file(const fs::path& panel)
{
    auto file = panel;
    return file += ".asked";
}

AskedWriter::AskedWriter(fs::path file, const std::string& began)
    : file_(std::move(file)), text_("# asked by the run of " + began + "\n")
{
    records::write_file_whole(file_, text_);
}

void AskedWriter::ask(const std::vector<virtual_bench::Action>& actions)
{
    if (actions.empty()) {
        return;
    }
    for (const auto& action : actions) {
        text_ += virtual_bench::line_of(action) + "\n";
    }
    records::write_file_whole(file_, text_);
}

AskedReader::AskedReader(fs::path file) : file_(std::move(file)), seen_(read()) {}

std::string AskedReader::read() const
{
    constexpr std::size_t largest = 1u << 20;
    std::error_code none;
    if (!fs::exists(file_, none)) {
        return {};
    }
    try {
        return records::read_file(file_, largest);
    } catch (const trace::InputError&) {
        return {}; // replaced just now; the next look finds it
    }
}

std::vector<std::string> AskedReader::next()
{
    auto text = read();
    if (text.empty() || text == seen_) {
        return {};
    }
    const bool goes_on = !seen_.empty() && text.starts_with(seen_);
    std::istringstream fresh(goes_on ? text.substr(seen_.size()) : text);
    seen_ = std::move(text);
    std::vector<std::string> lines;
    for (std::string line; std::getline(fresh, line);) {
        if (!line.starts_with('#')) {
            lines.push_back(line);
        }
    }
    return lines;
}

} // namespace zeroline::console
