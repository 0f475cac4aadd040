#pragma once

#include <memory>
#include <mutex>

namespace zeroline::print {

/// What painting needs: fonts and charts come from a Qt application. Where the program has one (the window), that is
/// used; where it has none (a terminal command), one that needs no display lives as long as this does. One painter at a
/// time: the application belongs to the whole process.
class Offscreen {
public:
    Offscreen();
    ~Offscreen();
    Offscreen(const Offscreen&) = delete;
    Offscreen& operator=(const Offscreen&) = delete;

private:
    struct Application;
    std::unique_lock<std::mutex> only_;
    std::unique_ptr<Application> application_;
};

} // namespace zeroline::print
