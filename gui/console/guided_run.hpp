#pragma once

#include "gui/console/asked_file.hpp"
#include "gui/console/run_saving.hpp"
#include "gui/console/terminal.hpp"
#include "gui/console/verify_options.hpp"
#include "gui/records/record_folder.hpp"
#include "gui/session/bench_hand.hpp"
#include "gui/session/bench_run.hpp"

#include <functional>
#include <map>
#include <string>
#include <vector>

namespace zeroline::console {

/// A bench run at the terminal: feeds the machine with samples, shows what it says, asks what it needs to know. The run
/// log is written at every step, so that a run that breaks off leaves what it has.
class GuidedRun {
public:
    GuidedRun(const VerifyOptions& options, const RunInputs& inputs, const records::RecordFolder& folder,
              Terminal& terminal);

    /// Opens port and trace file, runs to the end, closes both. Throws trace::InputError where they cannot be opened.
    session::Ending run();
    /// Readings that came in, with or without a value.
    [[nodiscard]] std::size_t readings() const { return feed_.raw().moment_s.size(); }
    /// Says what still has to be done to the unit, once; nothing where the hand-back list was gone through, or where
    /// nothing has been done to the unit yet.
    void remind_of_what_is_left();

private:
    void begin();
    void pump();
    void steer();
    void ask_the_bench();
    void answer();
    void obey(const std::string& line);
    void skip(const std::string& reason);
    void note_check(const std::string& typed);
    bool corrected_value(const std::string& typed);
    void answer_step(const session::RunView& view, const std::string& line);
    void show();
    [[nodiscard]] static std::string what_moves_on(const session::RunView& view);
    void tell_news();
    void hand_back();
    void write_log();
    void tell_trouble();

    [[nodiscard]] std::optional<std::string> ask(const std::string& question);
    template <typename Reading>
    [[nodiscard]] auto ask_until(const std::string& question, Reading reading)
        -> std::optional<decltype(reading(question))>;
    [[nodiscard]] bool ask_yes(const std::string& question);
    [[nodiscard]] std::optional<std::map<std::string, verification::Settings>> ask_settings(const std::string& when);
    [[nodiscard]] std::optional<verification::Settings> ask_settings_of(const verification::Preset& preset,
                                                                        const std::string& when, bool first);
    std::optional<verification::Settings> corrected(std::optional<verification::Settings> typed);
    [[nodiscard]] bool confirm_list(const session::HandBack& what);
    [[nodiscard]] std::optional<std::map<std::string, verification::Settings>> settings_left();
    [[nodiscard]] bool
    left_as_it_must_be(const std::optional<std::map<std::string, verification::Settings>>& left) const;
    [[nodiscard]] verification::Displayed ask_displayed(const verification::Preset& preset);
    [[nodiscard]] std::vector<verification::Displayed> displayed_values();
    [[nodiscard]] session::RunSettings run_settings();

    const VerifyOptions& options_;
    const RunInputs& inputs_;
    Terminal& terminal_;
    RunSaving saving_; ///< outlives the feed
    session::LiveFeed feed_;
    std::vector<verification::ChecklistItem> checklist_;
    std::optional<session::BenchRun> run_;
    session::BenchHand hand_;
    std::optional<AskedWriter> asked_; ///< where the virtual bench keeps a panel
    std::string told_trouble_, told_check_, told_sentence_;
    bool handed_back_ = false;
    bool stated_ = false;     ///< the settings asked for last: stated as prescribed, not copied out
    bool needed_now_ = false; ///< 'b' was typed at a question
};

} // namespace zeroline::console
