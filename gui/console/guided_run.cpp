#include "gui/console/guided_run.hpp"

#include "acquisition/trace/input_error.hpp"
#include "analysis/verification/hand_back.hpp"
#include "gui/console/attempts_text.hpp"
#include "gui/console/interrupt.hpp"
#include "gui/console/local_time.hpp"
#include "gui/console/typed_values.hpp"
#include "gui/session/first_strength.hpp"
#include "gui/session/instrument_state.hpp"
#include "gui/session/practice.hpp"
#include "gui/session/provisional_judge.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <chrono>
#include <thread>
#include <utility>

namespace zeroline::console {

using session::BenchRun;
using session::Ending;
using session::News;
using session::StepKind;
using verification::Displayed;
using verification::Preset;
using verification::Settings;
using verification::Shows;

namespace {

constexpr double kTick_s = 0.02;
constexpr double kLookEvery_s = 0.1;
constexpr int kMostLooks = 60; ///< at the panel of a virtual bench: longer than any hold of its hand

double monotonic_s()
{
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

serial::CaptureSettings line_settings(const VerifyOptions& options, const RunInputs& inputs,
                                      const records::RecordFolder& folder, RunSaving& saving)
{
    serial::CaptureSettings settings;
    settings.port = options.port;
    settings.instrument = inputs.instrument.meaning;
    settings.file = folder.file(records::name::trace);
    settings.wait_s = inputs.wait_s;
    settings.witness = saving.witness();
    return settings;
}

std::string bar(double share)
{
    constexpr std::size_t width = 20;
    const auto filled = static_cast<std::size_t>(std::clamp(share, 0.0, 1.0) * width);
    return std::string(filled, '#') + std::string(width - filled, '-');
}

} // namespace

GuidedRun::GuidedRun(const VerifyOptions& options, const RunInputs& inputs, const records::RecordFolder& folder,
                     Terminal& terminal)
    : options_(options), inputs_(inputs), terminal_(terminal), saving_(options, inputs, folder, terminal),
      feed_(line_settings(options, inputs, folder, saving_)), checklist_(inputs.checklist)
{
}

Ending GuidedRun::run()
{
    const EndsCleanly guarded;
    feed_.start();
    begin();
    while (!run_->ended()) {
        pump();
        steer();
        ask_the_bench();
        answer();
        tell_news();
        show();
    }
    tell_news();
    tell_trouble();
    // The unit first: closing and saving may take their time.
    remind_of_what_is_left();
    feed_.stop();
    write_log();
    saving_.end(run_->ending());
    return run_->ending();
}

void GuidedRun::begin()
{
    const auto& order = inputs_.order.meaning;
    if (inputs_.practice) {
        terminal_.say(session::ResultWords(session::Reader::terminal).say(session::kPractice).toStdString());
    } else if (feed_.simulated()) {
        terminal_.say("SIMULATED: " + options_.port + " is a pseudo-terminal; the record will say so.");
    }
    terminal_.say("Work order " + order.work_order + ", unit " + order.unit.asset + ", instrument " +
                  inputs_.instrument.meaning.name);
    if (inputs_.procedure) {
        const auto& procedure = inputs_.procedure->meaning;
        terminal_.say("Procedure " + procedure.name + ", revision " + procedure.revision);
    }
    for (const auto& preset : order.presets) {
        terminal_.say("  prescribed, preset '" + preset.name + "': " + session::in_one_line(preset));
    }
    if (!inputs_.earlier.empty()) {
        for (const auto& line : told_of_earlier(inputs_.earlier, inputs_.attempt, inputs_.replaces.has_value())) {
            terminal_.say(line);
        }
    }
    if (!inputs_.instrument_caution.empty()) {
        terminal_.say("! " + inputs_.instrument_caution);
    }
    for (const auto& caution : session::cautions_before_run(order)) {
        terminal_.say("- " + caution);
    }
    auto settings = run_settings();
    auto steps = inputs_.procedure ? session::run_steps(inputs_.procedure->meaning, order) : session::guided_run(order);
    settings.log.first_strength =
        inputs_.first_strength
            ? inputs_.first_strength
            : session::known_first_strength(steps, order.unit.asset, origin_of(options_), inputs_.registering);
    if (!options_.panel.empty() && !inputs_.practice) {
        asked_.emplace(asked_file(options_.panel), settings.log.began);
    }
    run_.emplace(order, std::move(settings),
                 session::provisional_judge(feed_.raw(), order, inputs_.instrument.meaning, inputs_.house()),
                 std::move(steps));
    run_->set_environment(inputs_.environment);
    if (stated_) {
        run_->set_found(*run_->log().settings_found, true);
    }
    run_->advance(monotonic_s());
    if (std::exchange(needed_now_, false)) {
        run_->stop(Ending::given_back);
    }
}

session::RunSettings GuidedRun::run_settings()
{
    session::RunSettings settings;
    settings.wait_s = inputs_.wait_s;
    settings.duty = inputs_.duty();
    settings.zero_offset_limit_cmH2O = inputs_.house().zero_offset_cmH2O;
    settings.leak_limit_cmH2O_s = inputs_.house().leak_cmH2O_per_s;
    settings.second_gauge = inputs_.bench ? inputs_.bench->meaning.second_gauge : std::nullopt;
    settings.keep_check = session::check_keeper(options_.instrument, inputs_.instrument.meaning, inputs_.registering);
    settings.now = [] { return local_rfc3339(std::chrono::system_clock::now()); };
    auto& log = settings.log;
    log.run_operator = options_.run_operator;
    log.place = options_.place;
    log.began = local_rfc3339(std::chrono::system_clock::now());
    log.attempt = inputs_.attempt;
    log.replaces = inputs_.replaces;
    log.unlike_in_attempt = records::unlike_in_attempt(inputs_.earlier);
    log.origin = origin_of(options_);
    log.checklist = inputs_.checklist;
    log.restored = false;
    log.displayed = displayed_values();
    log.settings_found = ask_settings("as found, before anything is changed");
    return settings;
}

/// What is known of the displays without asking: given on the command line, or standing on a simulated panel.
std::vector<Displayed> GuidedRun::displayed_values()
{
    const auto& order = inputs_.order.meaning;
    std::vector<Displayed> all;
    if (!options_.panel.empty()) {
        all = records::load_panel(options_.panel, order).displayed;
    }
    for (const auto& preset : order.presets) {
        const auto is_this = [&](const Displayed& one) { return one.preset == preset.name; };
        const auto typed = std::find_if(inputs_.displayed.begin(), inputs_.displayed.end(), is_this);
        auto known = std::find_if(all.begin(), all.end(), is_this);
        if (known == all.end()) {
            all.push_back({preset.name, {}, {}, Shows::not_read});
            known = std::prev(all.end());
        }
        if (typed != inputs_.displayed.end()) {
            *known = *typed;
        }
    }
    return all;
}

void GuidedRun::tell_trouble()
{
    const auto trouble = feed_.sentence();
    if (trouble != told_trouble_) {
        told_trouble_ = trouble;
        if (!trouble.empty()) {
            terminal_.say(trouble);
        }
    }
}

void GuidedRun::pump()
{
    const auto batch = feed_.pull();
    tell_trouble();
    if (!run_) {
        return;
    }
    if (batch.lost) {
        run_->line_lost();
    }
    if (batch.back) {
        run_->line_back();
    }
    run_->push(batch.samples);
    run_->advance(monotonic_s());
}

void GuidedRun::steer()
{
    using serial::LineState;
    const auto state = feed_.state();
    if (interrupted() || (terminal_.closed() && !options_.yes)) {
        run_->abandon(Ending::interrupted);
    } else if (state == LineState::failed || !saving_.trouble().empty()) {
        run_->abandon(Ending::not_saved);
    } else if (state == LineState::ended) {
        run_->abandon(Ending::line_gone);
    }
}

void GuidedRun::ask_the_bench()
{
    if (inputs_.practice) {
        inputs_.practice->follow(run_->view());
    } else if (asked_) {
        asked_->ask(hand_.next(run_->view()));
    }
}

void GuidedRun::answer()
{
    const bool at_hand_back = !run_->ended() && run_->view().step == StepKind::hand_back;
    if (at_hand_back) {
        hand_back();
        return;
    }
    const auto line = terminal_.typed(kTick_s);
    if (run_->ended()) {
        return;
    }
    if (!options_.yes) {
        if (line) {
            obey(*line);
        }
        return;
    }
    const auto view = run_->view();
    // The simulated zero stays as it is however often it is read.
    if (!view.item.empty()) {
        run_->skip("simulated: nobody looked");
    } else if ((view.can_go_on && view.can_confirm) || view.asks_hose_end) {
        run_->go_on();
    } else if (view.can_confirm) {
        run_->confirm();
    }
}

void GuidedRun::tell_news()
{
    for (const auto& news : run_->take_news()) {
        const bool step = news.kind == News::Kind::step;
        if (step || news.kind == News::Kind::critical) {
            terminal_.chime();
            terminal_.say(""); // stands apart
        }
        const std::string mark = inputs_.practice ? std::string(session::kPracticeMark) + "  " : "";
        terminal_.say(step ? mark + news.place + ": " + news.text : "  " + news.text);
        if (step) {
            write_log();
        }
    }
}

/// The sentence of the step stands above already; where it changes as the step goes on, it is repeated here.
std::string GuidedRun::what_moves_on(const session::RunView& view)
{
    if (view.line_lost) {
        return "the instrument is gone";
    }
    if (view.asks_hose_end) {
        return view.can_confirm ? "[Enter] nothing soft, plug seen  [g] go on without an answer"
                                : "[g] go on without an answer (no operator is named)";
    }
    if (view.step == StepKind::gauge) {
        return (view.expects.empty() ? "" : "[what it shows, in " + view.expects + "]  ") +
               std::string("[x WHY] not done");
    }
    if (!view.item.empty()) {
        return view.step == StepKind::check
                   ? "[Enter] in order  [n REMARK] not in order  [x WHY] not applicable"
                   : "[the value" + (view.expects.empty() ? "" : " in " + view.expects) + "]  [x WHY] not measured";
    }
    if (view.can_confirm) {
        return view.can_go_on ? "[Enter] once more  [g] go on all the same" : "[Enter] done";
    }
    const bool changes = view.step == StepKind::manual || session::cycles_by_itself(view.step);
    return changes ? view.sentence + (view.can_go_on ? "  [g] go on with what was seen" : "")
                   : "waiting for " + view.waits_for;
}

void GuidedRun::show()
{
    if (run_->ended()) {
        return;
    }
    const auto view = run_->view();
    const std::string share = view.progress ? bar(*view.progress) + "  " : "";
    const bool can_give_back = !options_.yes && view.step != StepKind::hand_back;
    // In front, where a narrow terminal does not cut it off.
    terminal_.progress((can_give_back ? "[b] give back now  " : "") + share + what_moves_on(view));
    // What is asked for changes within these steps.
    const bool asks_anew = view.press_cmH2O.has_value() || view.step == StepKind::leak;
    if (asks_anew && std::exchange(told_sentence_, view.sentence) != view.sentence) {
        terminal_.chime();
        terminal_.say("  " + view.sentence);
    }
    if (view.check != told_check_) {
        told_check_ = view.check;
        if (!view.check.empty()) {
            terminal_.say("  Waiting for " + view.waits_for + ". Check: " + view.check);
        }
    }
}

bool GuidedRun::confirm_list(const session::HandBack& what)
{
    bool all = true;
    for (const auto& item : session::hand_back_list(inputs_.order.meaning, what)) {
        if (options_.yes) {
            terminal_.say("  - " + item);
        } else {
            all = ask_yes("  - " + item) && all;
        }
    }
    return all;
}

bool GuidedRun::left_as_it_must_be(const std::optional<std::map<std::string, Settings>>& left) const
{
    auto log = run_->log();
    log.settings_left = left;
    log.restored = true;
    verification::Evidence evidence;
    evidence.order = &inputs_.order.meaning;
    evidence.run = &log;
    return verification::hand_back_reasons(evidence).empty();
}

/// The hand at a virtual bench takes the plug out a moment after it is asked to, and its panel says so then.
std::optional<std::map<std::string, Settings>> GuidedRun::settings_left()
{
    auto left = ask_settings("as left");
    for (int looks = 0; options_.yes && looks < kMostLooks && !left_as_it_must_be(left) && !interrupted(); ++looks) {
        pump();
        std::this_thread::sleep_for(std::chrono::duration<double>(kLookEvery_s));
        left = ask_settings("as left");
    }
    return left;
}

void GuidedRun::hand_back()
{
    tell_news();
    const auto what = run_->hand_back();
    auto displayed = displayed_values();
    bool done = confirm_list(what);
    if (!options_.yes) {
        for (auto& one : displayed) {
            one = one.shows == Shows::not_read ? ask_displayed(*inputs_.order.meaning.preset(one.preset)) : one;
        }
    }
    auto left = settings_left();
    if (interrupted()) {
        run_->abandon(Ending::interrupted);
        return;
    }
    // Nobody looks at a simulated unit: its panel alone says what can be confirmed.
    done = done && (!options_.yes || what.held || left_as_it_must_be(left));
    handed_back_ = true;
    run_->set_displayed(std::move(displayed));
    run_->set_returned(done, std::move(left), stated_);
    run_->confirm();
}

void GuidedRun::remind_of_what_is_left()
{
    if (!run_ || std::exchange(handed_back_, true)) {
        return;
    }
    const auto what = run_->hand_back();
    terminal_.say(session::hand_back_sentence(what));
    for (const auto& item : session::hand_back_list(inputs_.order.meaning, what)) {
        terminal_.say("  - " + item);
    }
}

void GuidedRun::write_log() { saving_.log(run_->log()); }

} // namespace zeroline::console
