#pragma once

#include "gui/records/json_file.hpp"
#include "gui/records/open_file.hpp"

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace zeroline::records {

/// A folder that is held open by its descriptor: what is read is what stands in it, whatever becomes of its name. Below
/// it nothing is followed and nothing but regular files is read, so that a link cannot lead out of a record and a pipe
/// cannot keep a reader waiting. Names may have slashes ("as-found/seal.json"). Copies share one descriptor.
class OpenFolder {
public:
    enum class Kind { none, file, folder, other };

    /// Opens the folder a person named; a link to one is taken. Throws trace::InputError.
    [[nodiscard]] static OpenFolder at(const std::filesystem::path& folder);

    /// Opens a folder inside. Throws trace::InputError: not there, a link, no folder.
    [[nodiscard]] OpenFolder folder(const std::string& name) const;
    /// None where nothing, or no folder, bears the name.
    [[nodiscard]] std::optional<OpenFolder> folder_if_any(const std::string& name) const;

    [[nodiscard]] Kind kind(const std::string& name) const;
    [[nodiscard]] bool has_file(const std::string& name) const { return kind(name) == Kind::file; }
    /// Everything that bears a name here, sorted.
    [[nodiscard]] std::vector<std::string> names() const;

    /// Each throws trace::InputError naming the file.
    [[nodiscard]] Descriptor open(const std::string& name) const;
    [[nodiscard]] std::string read(const std::string& name, std::size_t largest = kLargestJsonFile) const;
    [[nodiscard]] nlohmann::json json(const std::string& name) const;
    [[nodiscard]] std::string sha256(const std::string& name) const;
    /// Makes a new folder inside. Throws trace::InputError where something bears that name.
    [[nodiscard]] OpenFolder make_folder(const std::string& name) const;
    /// Writes a file here whole (write_whole()).
    void put(const std::string& name, std::string_view text) const;

    [[nodiscard]] const std::filesystem::path& path() const noexcept { return path_; }
    /// Where `name` stands, for people to read.
    [[nodiscard]] std::filesystem::path shown(const std::string& name) const { return path_ / name; }
    /// Of the folder itself; open as long as this object or a copy lives.
    [[nodiscard]] int descriptor() const noexcept { return folder_->number(); }

private:
    OpenFolder(std::filesystem::path path, Descriptor folder);

    std::filesystem::path path_;
    std::shared_ptr<const Descriptor> folder_;
};

} // namespace zeroline::records
