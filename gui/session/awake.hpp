#pragma once

#include <string>
#include <sys/types.h>

namespace zeroline::session {

/// Keeps the machine from sleeping while it exists, where the system offers it (logind, through systemd-inhibit); does
/// nothing elsewhere. The lock goes with the program, however that ends.
class Awake {
public:
    /// `why` is what the system shows to somebody who asks what holds it awake.
    explicit Awake(const std::string& why);
    ~Awake();
    Awake(const Awake&) = delete;
    Awake& operator=(const Awake&) = delete;

private:
    int held_ = -1; ///< while it is open, the lock's process waits on it
    pid_t process_ = -1;
};

} // namespace zeroline::session
