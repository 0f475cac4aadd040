#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace zeroline::console {

/// The person at the terminal: words on standard error, keys from standard input. Results do not go here but to
/// standard output. One thread.
class Terminal {
public:
    Terminal();
    ~Terminal();
    Terminal(const Terminal&) = delete;
    Terminal& operator=(const Terminal&) = delete;

    [[nodiscard]] bool can_ask() const noexcept { return can_ask_; }          ///< standard input is a terminal
    [[nodiscard]] bool shows_progress() const noexcept { return on_screen_; } ///< standard error is a terminal

    /// A line that stays.
    void say(std::string_view text);
    /// A line that the next one replaces, cut to the width of the screen; nothing where standard error is no terminal.
    void progress(std::string_view text);
    /// Takes that line away, before results are written that may stand on the same screen.
    void clear_progress();
    /// A soft sound, on a terminal only.
    void chime();

    /// A line typed, without its end, waiting at most `wait_s`. None: nothing whole was typed.
    std::optional<std::string> typed(double wait_s);
    /// Standard input has come to its end.
    [[nodiscard]] bool closed() const noexcept { return closed_; }

    /// Asks and waits for a line; `meanwhile` runs some fifty times a second. None: interrupted, or no input any more.
    std::optional<std::string> ask(std::string_view question, const std::function<void()>& meanwhile);

    /// Asks until something is typed: a blank line is no answer, unless `otherwise` stands for it. None: "-", nothing
    /// now; interrupted; no input any more.
    std::optional<std::string> ask_for_text(std::string_view question, const std::string& otherwise = {});
    /// Asks for something that must not be seen: nothing of what is typed shows. None also where nobody can be asked.
    std::optional<std::string> ask_secret(std::string_view question);

private:
    [[nodiscard]] std::optional<std::string> first_line();

    bool can_ask_;
    bool on_screen_;
    bool closed_ = false;
    std::string progress_; ///< what stands on the last line
    std::string input_;
};

/// A result to standard output, and its trouble, if any, behind it in one line to standard error.
void print_outcome(std::string_view text, std::string_view trouble);

/// How many letters go into a line of results; none where standard output is no terminal, or one that does not say.
[[nodiscard]] std::optional<std::size_t> columns_for_results();

} // namespace zeroline::console
