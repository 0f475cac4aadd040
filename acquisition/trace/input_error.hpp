#pragma once

#include <stdexcept>
#include <string>

namespace zeroline::trace {

/// Input that cannot be taken, told in one line: where it stands, what was found, what was expected.
///
/// `where` is a JSON pointer ("/unit/asset"), a line ("line 17") or a path; `within()` puts the file in front of it.
/// Thrown by every reader of the project; the program prints what() and exits with status 2.
class InputError : public std::runtime_error {
public:
    InputError(std::string where, std::string found, std::string expected);

    /// The same trouble, seen from the outside: "order.json: /unit/asset: ...".
    [[nodiscard]] InputError within(const std::string& container) const;

    [[nodiscard]] const std::string& where() const noexcept { return where_; }
    [[nodiscard]] const std::string& found() const noexcept { return found_; }
    [[nodiscard]] const std::string& expected() const noexcept { return expected_; }

private:
    std::string where_;
    std::string found_;
    std::string expected_;
};

} // namespace zeroline::trace
