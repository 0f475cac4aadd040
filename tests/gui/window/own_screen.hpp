#pragma once

#include <QByteArray>

#include <csignal>
#include <string>

#include <sys/prctl.h>
#include <unistd.h>

namespace zeroline::window {

/// Starts the X server at `program` (Xvfb) for this process alone and makes it Qt's platform. What the offscreen
/// platform leaves out, exposure and activation, is then there. It ends with the process. False where it did not start.
inline bool start_own_screen(const char* program)
{
    int ends[2] = {};
    if (pipe(ends) != 0)
        return false;
    if (fork() == 0) {
        prctl(PR_SET_PDEATHSIG, SIGTERM);
        close(ends[0]);
        const auto told_at = std::to_string(ends[1]);
        execl(program, program, "-displayfd", told_at.c_str(), "-screen", "0", "1280x900x24", "-nolisten", "tcp",
              "-noreset", static_cast<char*>(nullptr));
        _exit(127);
    }
    close(ends[1]);
    // It takes the first number that is free, and tells it once it listens.
    std::string number;
    for (char digit = 0; read(ends[0], &digit, 1) == 1 && digit != '\n';)
        number += digit;
    close(ends[0]);
    if (number.empty())
        return false;
    qputenv("DISPLAY", QByteArray(":") + number.c_str());
    qputenv("QT_QPA_PLATFORM", "xcb");
    return true;
}

} // namespace zeroline::window
