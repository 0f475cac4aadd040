#pragma once

#include <string>

namespace zeroline::serial {

/// Finds a lost instrument again: under the path it had, its link followed afresh, or on another port with the same USB
/// serial number.
///
/// The number of a closed pseudo-terminal is given to whoever opens the next one. So one that was lost is taken back
/// only where the link that led to it was made anew since; a bare /dev/pts/N is never taken back.
class WayBack {
public:
    /// Notes what stands at `path` now, while the instrument is there.
    explicit WayBack(std::string path);

    /// Where the instrument may be now, or empty. Looks at the system each time; any thread, one at a time.
    [[nodiscard]] std::string find() const;

    /// The instrument was opened again at `path`: from now on this is what was there.
    void found_at(const std::string& path);

private:
    [[nodiscard]] bool may_be_the_same() const;
    [[nodiscard]] std::string elsewhere() const;

    std::string path_;
    std::string target_;      ///< the path with links followed
    std::string link_traits_; ///< tells a link from one made anew; empty: no link
    std::string usb_serial_;
    int usb_vendor_ = -1;
    int usb_product_ = -1;
    bool pseudo_terminal_ = false;
};

} // namespace zeroline::serial
