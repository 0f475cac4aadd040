#include "gui/console/terminal.hpp"

#include "acquisition/trace/visible_text.hpp"
#include "gui/console/interrupt.hpp"
#include "gui/console/wrapped_text.hpp"

#include <algorithm>
#include <chrono>
#include <iostream>
#include <poll.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <thread>
#include <unistd.h>

namespace zeroline::console {

namespace {

constexpr double kTick_s = 0.02;
constexpr std::size_t kLongestLine = 4096;

std::optional<std::size_t> columns_of(int stream)
{
    winsize size{};
    const bool known = ::ioctl(stream, TIOCGWINSZ, &size) == 0 && size.ws_col > 1;
    return known ? std::optional<std::size_t>(size.ws_col) : std::nullopt;
}

/// Of the screen; a line that is longer would run over into the next one and could not be replaced.
std::size_t columns()
{
    constexpr std::size_t usual = 80;
    return columns_of(STDERR_FILENO).value_or(usual);
}

/// Past std::cerr, which lets no control character through; it holds nothing back, so the order stays.
void steer_screen(std::string_view text)
{
    if (::write(STDERR_FILENO, text.data(), text.size()) < 0) {
        return; // a screen that is gone shows nothing wrong
    }
}

} // namespace

Terminal::Terminal() : can_ask_(::isatty(STDIN_FILENO) != 0), on_screen_(::isatty(STDERR_FILENO) != 0) {}

Terminal::~Terminal() { clear_progress(); }

void Terminal::clear_progress()
{
    if (!progress_.empty()) {
        steer_screen('\r' + std::string(letters_in(progress_), ' ') + '\r');
        progress_.clear();
    }
}

void Terminal::say(std::string_view text)
{
    clear_progress();
    const auto line = trace::visible_on_one_line(text);
    std::cerr << (on_screen_ ? wrapped(line, columns()) : line) << '\n' << std::flush;
}

void Terminal::progress(std::string_view text)
{
    const auto fitting = cut_to(trace::visible_on_one_line(text), columns() - 1);
    if (on_screen_ && fitting != progress_) {
        clear_progress();
        std::cerr << fitting << std::flush;
        progress_ = fitting;
    }
}

void Terminal::chime()
{
    if (on_screen_) {
        steer_screen("\a");
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
    progress_.clear();
    return first_line();
}

std::optional<std::string> Terminal::ask_for_text(std::string_view question, const std::string& otherwise)
{
    while (auto line = ask(question, [] {})) {
        const bool blank = line->find_first_not_of(" \t") == std::string::npos;
        if (blank && !otherwise.empty()) {
            return otherwise;
        }
        if (!blank) {
            return *line == "-" ? std::nullopt : line;
        }
        say("Nothing was typed; - leaves it open.");
    }
    return std::nullopt;
}

std::optional<std::string> Terminal::ask(std::string_view question, const std::function<void()>& meanwhile)
{
    clear_progress();
    const auto shown = trace::visible_on_one_line(question);
    std::cerr << (on_screen_ ? wrapped(shown, columns()) : shown) << ' ' << std::flush;
    const EndsCleanly guarded;
    while (!interrupted() && !closed_) {
        if (auto line = typed(kTick_s)) {
            return line;
        }
        meanwhile();
    }
    std::cerr << '\n';
    return std::nullopt;
}

std::optional<std::string> Terminal::ask_secret(std::string_view question)
{
    termios usual{};
    if (!can_ask_ || ::tcgetattr(STDIN_FILENO, &usual) != 0) {
        return std::nullopt;
    }
    auto quiet = usual;
    quiet.c_lflag &= ~static_cast<tcflag_t>(ECHO);
    quiet.c_lflag |= ECHONL;
    ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &quiet);
    auto line = ask(question, [] {});
    ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &usual);
    return line;
}

void print_outcome(std::string_view text, std::string_view trouble)
{
    std::cout << text << std::flush;
    if (!trouble.empty()) {
        std::cerr << "zeroline: " << trace::visible_on_one_line(trouble) << '\n';
    }
}

std::optional<std::size_t> columns_for_results() { return columns_of(STDOUT_FILENO); }

} // namespace zeroline::console
