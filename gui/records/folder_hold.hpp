#pragma once

#include <filesystem>
#include <memory>

namespace zeroline::records {

/// Holds a folder for one program at a time (flock(2) on its descriptor), as long as this object or a copy lives: also
/// through a rename, and never longer than the program lives, however it ends.
class FolderHold {
public:
    /// Waits for nobody. Throws trace::InputError: another program holds it (which one, where the system tells), it is
    /// another folder by now, there is none, the file system cannot lock.
    explicit FolderHold(const std::filesystem::path& folder);
    /// Lets it go, for all copies.
    void release() const noexcept;

private:
    std::shared_ptr<const int> descriptor_;
};

} // namespace zeroline::records
