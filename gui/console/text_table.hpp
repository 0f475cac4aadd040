#pragma once

#include <string>
#include <vector>

namespace zeroline::console {

/// Columns of text, each as wide as its longest cell; the first to the left, the others to the right, the last to the
/// left again. Cells are UTF-8.
class TextTable {
public:
    explicit TextTable(std::vector<std::string> heading) { rows_.push_back(std::move(heading)); }
    void add(std::vector<std::string> row) { rows_.push_back(std::move(row)); }
    /// Leaves out the columns headed `gives_way`, in this order, until no line is longer than `letters` or none of them
    /// is left. Returns the headings that went.
    std::vector<std::string> narrow_to(std::size_t letters, const std::vector<std::string>& gives_way);
    [[nodiscard]] std::string text() const;

private:
    [[nodiscard]] std::vector<std::size_t> widths() const;
    [[nodiscard]] std::size_t width() const;

    std::vector<std::vector<std::string>> rows_;
};

} // namespace zeroline::console
