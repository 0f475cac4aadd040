#include "gui/console/terminal.hpp"

#include "gui/console/interrupt.hpp"

#include <algorithm>
#include <chrono>
#include <iostream>
#include <poll.h>
#include <thread>
#include <unistd.h>

namespace zeroline::console {

namespace {

constexpr double kTick_s = 0.02;
constexpr std::size_t kLongestLine = 4096;

} // namespace

Terminal::Terminal() : can_ask_(::isatty(STDIN_FILENO) != 0), on_screen_(::isatty(STDERR_FILENO) != 0) {}

Terminal::~Terminal() { clear_progress(); }

void Terminal::clear_progress()
{
    if (progress_length_ > 0) {
        std::cerr << '\r' << std::string(progress_length_, ' ') << '\r' << std::flush;
        progress_length_ = 0;
    }
}

void Terminal::say(std::string_view text)
{
    clear_progress();
    std::cerr << text << '\n' << std::flush;
}

void Terminal::progress(std::string_view text)
{
    if (on_screen_) {
        clear_progress();
        std::cerr << text << std::flush;
        progress_length_ = text.size();
    }
}

void Terminal::chime()
{
    if (on_screen_) {
        std::cerr << '\a' << std::flush;
    }
}

std::optional<std::string> Terminal::first_line()
{
    const auto end = input_.find('\n');
    if (end == std::string::npos) {
        return std::nullopt;
    }
    auto line = input_.substr(0, end);
    input_.erase(0, end + 1);
    if (line.ends_with('\r')) {
        line.pop_back();
    }
    return line;
}

std::optional<std::string> Terminal::typed(double wait_s)
{
    if (auto line = first_line()) {
        return line;
    }
    if (closed_ || !can_ask_) {
        std::this_thread::sleep_for(std::chrono::duration<double>(wait_s));
        return std::nullopt;
    }
    pollfd input{STDIN_FILENO, POLLIN, 0};
    if (::poll(&input, 1, static_cast<int>(wait_s * 1000.0)) <= 0) {
        return std::nullopt;
    }
    char block[256];
    const auto count = ::read(STDIN_FILENO, block, sizeof block);
    closed_ = count <= 0;
    if (count > 0 && input_.size() < kLongestLine) {
        input_.append(block, static_cast<std::size_t>(count));
    }
    // What is typed stands on the screen: the progress line must not wipe it.
    progress_length_ = 0;
    return first_line();
}

std::optional<std::string> Terminal::ask(std::string_view question, const std::function<void()>& meanwhile)
{
    clear_progress();
    std::cerr << question << ' ' << std::flush;
    while (!interrupted() && !closed_) {
        if (auto line = typed(kTick_s)) {
            return line;
        }
        meanwhile();
    }
    std::cerr << '\n';
    return std::nullopt;
}

} // namespace zeroline::console
