#pragma once

#include "gui/records/folder_hold.hpp"
#include "gui/records/open_folder.hpp"

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>

namespace zeroline::records {

/// Writes `text` to `file` so that either the old or the new content stands there, whatever happens: a neighbour is
/// written, synced and renamed. Throws trace::InputError naming the file and the system's reason.
void write_file_whole(const std::filesystem::path& file, std::string_view text);

/// Writes a file that only its owner may read (mode 0600) and that must not be there yet. Throws trace::InputError.
void write_private_file(const std::filesystem::path& file, std::string_view text);

/// A record in the making: the sibling FOLDER.part, where everything is written, and one rename at the end.
///
/// Whatever is not finished stays as FOLDER.part; nothing of it is ever deleted, except by discard(). Held for this
/// program as long as this object or a copy lives (FolderHold).
class RecordFolder {
public:
    /// Creates FOLDER.part. Throws trace::InputError if FOLDER or FOLDER.part is there already (never overwritten) or
    /// if it cannot be created, or while another program holds it. A FOLDER.part of a run that was killed before its
    /// first reading is cleared away: it holds nothing but copies.
    [[nodiscard]] static RecordFolder begin(const std::filesystem::path& folder);

    /// begin() with everything that `fill` puts into it. The FOLDER.part appears with the file sources.json, which
    /// holds `sources` until `fill` is done: from the first moment on, whatever breaks off can be completed
    /// (records::fill_from_sources()). Where `fill` throws, nothing stays.
    [[nodiscard]] static RecordFolder begin_with(const std::filesystem::path& folder, std::string_view sources,
                                                 const std::function<void(const RecordFolder&)>& fill);

    /// Takes up a FOLDER.part that was left. Throws trace::InputError if it is none, if FOLDER is there, or while
    /// another program holds it.
    [[nodiscard]] static RecordFolder take_up(const std::filesystem::path& part);

    /// True for a path that ends in ".part" and is a folder itself, no link to one.
    [[nodiscard]] static bool is_part(const std::filesystem::path& path);

    [[nodiscard]] const std::filesystem::path& folder() const noexcept { return folder_; }
    [[nodiscard]] const std::filesystem::path& part() const noexcept { return part_; }
    /// The FOLDER.part itself, held open; that stays so when it is renamed.
    [[nodiscard]] const OpenFolder& opened() const noexcept { return opened_; }
    /// Where the file called `name` stands while the record is made.
    [[nodiscard]] std::filesystem::path file(const std::string& name) const { return part_ / name; }

    /// Writes a file of the record whole (write_file_whole()).
    void put(const std::string& name, std::string_view text) const;

    /// Removes what a save that was cut off left behind: half-written neighbours and pages, manifest and seal, which
    /// are all made again.
    void tidy() const;

    /// Everything is written: syncs the folder and renames FOLDER.part to FOLDER. Throws trace::InputError; the
    /// FOLDER.part then stays.
    void finish() const { finish_as(folder_); }
    /// finish() with another place to go to, on the same file system.
    void finish_as(const std::filesystem::path& folder) const;

    /// Removes FOLDER.part: for a run that never began.
    void discard() const noexcept;

private:
    struct Names {
        std::filesystem::path folder, part;
    };
    /// Holds the FOLDER.part, which is there.
    RecordFolder(std::filesystem::path folder, std::filesystem::path part);
    /// Checks the name; makes nothing.
    [[nodiscard]] static Names named(const std::filesystem::path& folder);

    std::filesystem::path folder_;
    std::filesystem::path part_;
    FolderHold hold_;
    OpenFolder opened_;
};

} // namespace zeroline::records
