#pragma once

#include "fixtures/virtual_bench/virtual_bench.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace zeroline::console {

/// Where a run says what it asks of the hand at the virtual bench: beside the panel file, with `.asked` at its end.
/// Lines of a script, the first one a remark that tells one run from the next.
[[nodiscard]] std::filesystem::path asked_file(const std::filesystem::path& panel);

/// The run's side.
class AskedWriter {
public:
    /// Begins the file anew. Throws trace::InputError where it cannot be written.
    AskedWriter(std::filesystem::path file, const std::string& began);
    void ask(const std::vector<virtual_bench::Action>& actions);

private:
    std::filesystem::path file_;
    std::string text_;
};

/// The bench's side: what has been asked since the last look.
class AskedReader {
public:
    /// What an earlier run has left there is not asked any more.
    explicit AskedReader(std::filesystem::path file);
    [[nodiscard]] std::vector<std::string> next();

private:
    [[nodiscard]] std::string read() const;

    std::filesystem::path file_;
    std::string seen_;
};

} // namespace zeroline::console
