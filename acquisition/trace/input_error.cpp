#include "acquisition/trace/input_error.hpp"

#include <utility>

namespace zeroline::trace {

namespace {

std::string one_line(const std::string& where, const std::string& found, const std::string& expected)
{
    std::string line = where.empty() ? found : where + ": " + found;
    if (!expected.empty()) {
        line += "; expected " + expected;
    }
    for (char& c : line) {
        if (c == '\n' || c == '\r') {
            c = ' ';
        }
    }
    return line;
}

} // namespace

InputError::InputError(std::string where, std::string found, std::string expected)
    : std::runtime_error(one_line(where, found, expected)), where_(std::move(where)), found_(std::move(found)),
      expected_(std::move(expected))
{
}

InputError InputError::within(const std::string& container) const
{
    return {where_.empty() ? container : container + ": " + where_, found_, expected_};
}

} // namespace zeroline::trace
