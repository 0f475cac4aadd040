#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <utility>

namespace zeroline::records {

/// A file descriptor that is closed whatever happens.
class Descriptor {
public:
    explicit Descriptor(int number = -1) : number_(number) {}
    ~Descriptor();
    Descriptor(Descriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
    Descriptor& operator=(Descriptor&& other) noexcept
    {
        std::swap(number_, other.number_);
        return *this;
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    [[nodiscard]] int number() const { return number_; }

private:
    int number_;
};

/// Whether a name may be a link. A person who names a file means what it leads to; inside a record nothing is followed.
enum class Links { followed, refused };

/// Opens the regular file `name` below the open folder `at` (AT_FDCWD: the current one), to read. Anything else that
/// bears the name (a folder, a link, a pipe, a device) is refused and never waited for. Throws trace::InputError with
/// `shown` in front.
[[nodiscard]] Descriptor open_regular(int at, const std::string& name, Links links, const std::filesystem::path& shown);

/// Hands the bytes of an open file on, piece by piece. Throws trace::InputError with `shown` in front.
void read_pieces(const Descriptor& file, const std::filesystem::path& shown,
                 const std::function<void(std::string_view)>& take);
/// All bytes of an open file. Throws trace::InputError with `shown` in front: more than `largest`, or a failed read.
[[nodiscard]] std::string read_all(const Descriptor& file, const std::filesystem::path& shown, std::size_t largest);

/// Writes `text` as the file `name` below the open folder `at`, so that either the old or the new content stands there
/// whatever happens: a neighbour that is new and has a random name is written, synced and renamed. A link of that name
/// is replaced, not followed. Throws trace::InputError with `shown` in front.
void write_whole(int at, const std::string& name, std::string_view text, const std::filesystem::path& shown);

/// Writes a file of that name that only its owner may read (mode 0600) and that must not be there yet.
void write_private(int at, const std::string& name, std::string_view text, const std::filesystem::path& shown);

/// "order.json" -> "order.json.4f1c09a2b3d45e67.new": what a cut-off write leaves behind.
[[nodiscard]] std::string neighbour_of(const std::string& name);
[[nodiscard]] bool is_neighbour(const std::string& name);

/// Renames, and never replaces anything but on a file system that knows no better. False with errno set.
[[nodiscard]] bool rename_to_nothing(int from_at, const std::string& from, int to_at, const std::string& to);

/// As safe as the file system makes it: some cannot sync a folder.
void sync_folder(int folder);

} // namespace zeroline::records
