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
    [[nodiscard]] std::string text() const;

private:
    std::vector<std::vector<std::string>> rows_;
};

} // namespace zeroline::console
