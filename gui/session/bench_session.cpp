#include "gui/session/bench_session.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/attempts.hpp"
#include "gui/records/earlier.hpp"
#include "gui/session/first_strength.hpp"
#include "gui/session/instrument_state.hpp"
#include "gui/session/provisional_judge.hpp"
#include "gui/session/trace_witness.hpp"

#include <QDateTime>
#include <QTimer>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <chrono>
#include <cmath>

namespace zeroline::session {

namespace fs = std::filesystem;
using verification::Displayed;
using verification::Shows;

namespace {

constexpr int kTick_ms = 35;          ///< 25 to 30 pictures a second: what an eye follows
constexpr double kClockEvery_s = 0.1; ///< while nothing comes in, only clocks move
constexpr double kLineEvery_s = 0.5;
constexpr double kLineOver_s = 2.0;
constexpr double kSamePhase_s = 0.3; ///< a phase is recognised live a little later than it begins

double steady_s() { return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count(); }

/// Between neighbours, and their median: neither a pressure that changes slowly nor an edge is taken for noise.
std::optional<double> noise_of(const std::vector<LiveSample>& samples)
{
    if (samples.size() < 10) {
        return std::nullopt;
    }
    constexpr double kOfNormal = 0.954; // median of |x - y| over the standard deviation of x and y
    std::vector<double> steps;
    for (std::size_t i = 1; i < samples.size(); ++i) {
        steps.push_back(std::fabs(samples[i].pressure_cmH2O - samples[i - 1].pressure_cmH2O));
    }
    const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
    std::nth_element(steps.begin(), middle, steps.end());
    return *middle / kOfNormal;
}

} // namespace

verification::HouseProfile RunSetUp::house() const
{
    return bench ? bench->meaning.house : verification::HouseProfile::standard();
}

verification::Duty RunSetUp::duty() const { return bench ? bench->meaning.duty : verification::Duty{}; }

bool is_simulated(const std::string& port) { return serial::is_pseudo_terminal(port); }

std::string local_rfc3339()
{
    const auto now = QDateTime::currentDateTime();
    return now.toOffsetFromUtc(now.offsetFromUtc()).toString(Qt::ISODate).toStdString();
}

std::vector<records::KeptAttempt> attempts_before(const fs::path& folder, const verification::WorkOrder& order,
                                                  bool simulated, const std::optional<AsFound>& as_found,
                                                  const records::KeyList* known)
{
    records::KeptAttempt one;
    one.folder = folder;
    one.work_order = order.work_order;
    one.asset = order.unit.asset;
    one.simulated = simulated;
    return records::attempts_before(one, as_found, known);
}

void count_attempts(RunSetUp& made)
{
    const auto known = records::own_keys(records::key_file(made.bench_file));
    made.before = attempts_before(made.folder, made.order.meaning, made.simulated != nullptr, made.as_found, &known);
    made.attempt = next_attempt(made.before);
}

int next_attempt(const std::vector<records::KeptAttempt>& before)
{
    return before.empty() ? 1 : before.back().attempt.number + 1;
}

BenchSession::BenchSession(RunSetUp set_up, QObject* parent, std::function<double()> now_s)
    : QObject(parent), set_up_(std::move(set_up)), now_s_(now_s ? std::move(now_s) : steady_s), house_(set_up_.house()),
      history_(set_up_.instrument.meaning.nominal_hz), timer_(new QTimer(this))
{
    timer_->setInterval(kTick_ms);
    connect(timer_, &QTimer::timeout, this, &BenchSession::tick);
}

BenchSession::~BenchSession() { stop_line(); }

void BenchSession::start()
{
    folder_ = records::RecordFolder::begin(set_up_.folder);
    try {
        folder_->put(records::name::order, set_up_.order.text);
        folder_->put(records::name::instrument, set_up_.instrument.text);
        if (set_up_.bench) {
            folder_->put(records::name::bench, set_up_.bench->text);
        }
        if (set_up_.procedure) {
            folder_->put(records::name::procedure, set_up_.procedure->text);
        }
        records::put_followed(*folder_, set_up_.before, set_up_.as_found, set_up_.replaces);
        const auto key =
            set_up_.key ? *set_up_.key : records::SigningKey::load_or_make(records::key_file(set_up_.bench_file));
        journal_ = std::make_unique<records::CaptureJournal>(*folder_, key,
                                                             records::CaptureJournal::Begin{origin(), local_rfc3339()});
        serial::CaptureSettings settings;
        settings.port = set_up_.port;
        settings.instrument = set_up_.instrument.meaning;
        settings.file = folder_->file(records::name::trace);
        settings.wait_s = set_up_.wait_s;
        settings.witness = witness_of(*journal_);
        feed_ = std::make_unique<LiveFeed>(std::move(settings));
        feed_->start();
        begin_run();
    } catch (...) {
        feed_.reset();
        journal_.reset();
        folder_->discard();
        throw;
    }
    awake_.emplace("a unit is being verified");
    timer_->start();
}

void BenchSession::begin_run()
{
    const auto& order = set_up_.order.meaning;
    line_.simulated = feed_->simulated();
    steps_ = set_up_.procedure ? run_steps(set_up_.procedure->meaning, order) : guided_run(order);
    run_.emplace(order, run_settings(), provisional_judge(feed_->raw(), order, set_up_.instrument.meaning, house_),
                 steps_);
    run_->set_environment(set_up_.environment);
    run_->advance(now_s_());
    tell();
}

RunSettings BenchSession::run_settings() const
{
    RunSettings settings;
    settings.wait_s = set_up_.wait_s;
    settings.reminds = set_up_.reminds;
    settings.duty = set_up_.duty();
    settings.zero_offset_limit_cmH2O = house_.zero_offset_cmH2O;
    settings.leak_limit_cmH2O_s = house_.leak_cmH2O_per_s;
    settings.second_gauge = set_up_.bench ? set_up_.bench->meaning.second_gauge : std::nullopt;
    settings.keep_check = check_keeper(set_up_.instrument_file, set_up_.instrument.meaning, {set_up_.bench_file});
    settings.now = [] { return local_rfc3339(); };
    auto& log = settings.log;
    log.run_operator = set_up_.run_operator;
    log.place = set_up_.place;
    log.began = local_rfc3339();
    log.attempt = set_up_.attempt;
    log.replaces = set_up_.replaces;
    log.unlike_in_attempt = records::unlike_in_attempt(set_up_.before);
    log.checklist = set_up_.checklist;
    log.origin = origin();
    log.restored = false;
    log.displayed = displayed();
    log.first_strength = known_first_strength(steps_, set_up_.order.meaning.unit.asset, origin(), {set_up_.bench_file});
    log.settings_found = set_up_.simulated ? set_up_.simulated->panel().set : set_up_.settings_found;
    return settings;
}

std::vector<Displayed> BenchSession::displayed() const
{
    if (displayed_ || set_up_.simulated) {
        return displayed_ ? *displayed_ : set_up_.simulated->panel().displayed;
    }
    std::vector<Displayed> all;
    for (const auto& preset : set_up_.order.meaning.presets) {
        all.push_back({preset.name, {}, {}, Shows::not_read});
    }
    return all;
}

void BenchSession::tick()
{
    if (!run_ || concluded_) {
        return;
    }
    const bool fresh = pump();
    steer();
    tell();
    if (const double now = now_s_(); fresh || run_->ended() || now - told_at_s_ >= kClockEvery_s) {
        told_at_s_ = now;
        Q_EMIT changed();
    }
    if (run_->ended() && !told_end_) {
        told_end_ = true;
        timer_->stop();
        Q_EMIT ended();
    }
}

bool BenchSession::pump()
{
    const auto batch = feed_->pull();
    if (batch.lost) {
        run_->line_lost();
    }
    if (batch.back) {
        run_->line_back();
    }
    history_.append(batch.samples);
    run_->push(batch.samples);
    const double now = now_s_();
    run_->advance(now);
    if (now - line_measured_at_s_ >= kLineEvery_s) {
        line_measured_at_s_ = now;
        measure_line();
    }
    if (set_up_.simulated && !run_->ended()) {
        set_up_.simulated->follow(run_->view());
    }
    return batch.lost || batch.back || !batch.samples.empty();
}

void BenchSession::steer()
{
    const auto state = feed_->state();
    if (!run_->ended() && (state == serial::LineState::ended || state == serial::LineState::failed)) {
        line_.trouble = feed_->sentence();
        const auto why = state == serial::LineState::failed ? Ending::not_saved : Ending::line_gone;
        // By way of the hand-back list, however a run ends; where nothing came in, nothing was begun.
        history_.empty() ? run_->abandon(why) : run_->stop(why);
    }
}

void BenchSession::measure_line()
{
    line_.state = feed_->state();
    line_.counters = feed_->counters();
    line_.trouble = wrote_failed_.empty() ? feed_->sentence() : wrote_failed_;
    const auto samples = history_.between(history_.last_s() - kLineOver_s, history_.last_s());
    const bool flows = line_.state == serial::LineState::running && samples.size() > 1;
    line_.noise_cmH2O = flows ? noise_of(samples) : std::nullopt;
    line_.rate_hz =
        flows
            ? std::optional(static_cast<double>(samples.size() - 1) / (samples.back().time_s - samples.front().time_s))
            : std::nullopt;
}

void BenchSession::tell()
{
    for (const auto& news : run_->take_news()) {
        Q_EMIT newsCame(news.kind, QString::fromStdString(news.text));
    }
    const auto number = run_->view().number;
    if (number != step_ || run_->ended()) {
        step_ = number;
        if (set_up_.simulated && !run_->ended()) {
            run_->set_displayed(displayed()); // read by now, so that a result so far knows of it
        }
        write_log();
        Q_EMIT stepChanged();
    }
    if (run_->assessments() != assessments_) {
        assessments_ = run_->assessments();
        Q_EMIT assessed();
    }
    if (run_->stopping() && run_->ending() == Ending::critical && !told_stop_) {
        told_stop_ = true;
        Q_EMIT stopped();
    }
}

std::string BenchSession::preset() const
{
    const auto view = run_->view();
    if (!view.preset.empty()) {
        return view.preset;
    }
    // Between presets the last one that ran is still the one of interest.
    for (std::size_t i = std::min(view.number, steps_.size() - 1); i > 0; --i) {
        if (!steps_[i].preset.empty()) {
            return steps_[i].preset;
        }
    }
    return set_up_.order.meaning.presets.front().name;
}

double BenchSession::zero_cmH2O() const
{
    const auto& result = run_->provisional();
    return result ? result->zero.before.value_or(0.0) : 0.0;
}

RunMarks BenchSession::marks(double ahead_s) const
{
    RunMarks marks;
    const auto view = run_->view();
    marks.lost.assign(history_.gaps().begin(), history_.gaps().end());
    if (view.line_lost && !history_.empty()) {
        marks.lost.push_back({history_.last_s(), history_.last_s() + ahead_s});
    }
    if (view.step == StepKind::zero_before || view.step == StepKind::zero_after) {
        marks.zero = zero_offset_band(house_);
    }
    if (const auto& result = run_->provisional()) {
        marks.cycles = cycle_marks(*result);
        add_bands(marks, *result, view, ahead_s);
    }
    return marks;
}

void BenchSession::add_bands(RunMarks& marks, const verification::Assessment& result, const RunView& view,
                             double ahead_s) const
{
    const auto& order = set_up_.order.meaning;
    const PhaseLimits limits(result, order, house_, zero_cmH2O());
    if (view.step == StepKind::ladder) {
        return; // the bands are those of what is prescribed
    }
    marks.bands = limits.seen(result);
    const auto* preset = order.preset(this->preset());
    const bool presses = view.step == StepKind::manual || view.step == StepKind::automatic;
    if (!view.phase || preset == nullptr || !presses || view.line_lost) {
        return;
    }
    const double now_s = history_.last_s();
    const double from_s = std::min(view.phase_from_s, now_s);
    // The phase that goes on stands in the provisional result too, as far as it was seen then.
    std::erase_if(marks.bands, [&](const PhaseBand& band) { return band.from_s > from_s - kSamePhase_s; });
    for (auto& band : marks.bands) {
        band.to_s = std::min(band.to_s, from_s);
    }
    const auto next = limits.now_and_next(*preset, *view.phase, from_s, now_s, now_s + ahead_s);
    marks.bands.insert(marks.bands.end(), next.begin(), next.end());
}

void BenchSession::say_that_it_changed()
{
    tell();
    Q_EMIT changed();
}

void BenchSession::confirm()
{
    run_->confirm();
    say_that_it_changed();
}

void BenchSession::go_on()
{
    run_->go_on();
    say_that_it_changed();
}

void BenchSession::answer(verification::ChecklistItem::Outcome outcome, const std::string& remark)
{
    run_->answer(outcome, remark);
    say_that_it_changed();
}

void BenchSession::answer(double value, double last_digit)
{
    run_->answer(value, last_digit);
    say_that_it_changed();
}

void BenchSession::skip(const std::string& reason)
{
    run_->skip(reason);
    say_that_it_changed();
}

void BenchSession::note_checklist(std::vector<verification::ChecklistItem> checklist,
                                  const verification::Environment& air)
{
    set_up_.checklist = checklist;
    set_up_.environment = air;
    run_->set_checklist(std::move(checklist));
    run_->set_environment(air);
    write_log();
}

void BenchSession::give_back()
{
    run_->stop(Ending::given_back);
    say_that_it_changed();
}

void BenchSession::take_back()
{
    run_->take_back();
    say_that_it_changed();
}

void BenchSession::note_found(std::map<std::string, verification::Settings> found, bool as_prescribed)
{
    set_up_.settings_found = found;
    run_->set_found(std::move(found), as_prescribed);
    write_log();
}

void BenchSession::note_displayed(std::vector<Displayed> displayed)
{
    displayed_ = displayed;
    run_->set_displayed(std::move(displayed));
    write_log();
}

void BenchSession::hand_back(bool done, std::vector<Displayed> displayed,
                             std::optional<std::map<std::string, verification::Settings>> settings_left,
                             bool left_as_prescribed)
{
    if (run_->ended() || run_->view().step != StepKind::hand_back) {
        return;
    }
    run_->set_displayed(std::move(displayed));
    run_->set_returned(done, std::move(settings_left), left_as_prescribed);
    run_->confirm();
    tick();
}

void BenchSession::note_scanned(const std::string& asset) { scanned_ = asset; }

void BenchSession::write_log()
{
    try {
        const auto log = verification::to_json(run_->log());
        journal_->log(log);
        folder_->put(records::name::run, log.dump(2) + "\n");
        wrote_failed_.clear();
    } catch (const trace::InputError& error) {
        // The trace itself is written by another hand; the run goes on, and the last step tries again.
        wrote_failed_ = error.what();
    }
}

void BenchSession::end_log()
{
    write_log();
    try {
        journal_->end(word_of(run_->ending()));
    } catch (const trace::InputError& error) {
        wrote_failed_ = error.what();
    }
}

verification::Origin BenchSession::origin() const
{
    return is_simulated(set_up_.port) ? verification::Origin::simulated : verification::Origin::captured_here;
}

void BenchSession::stop_line()
{
    timer_->stop();
    if (feed_) {
        feed_->stop();
    }
    awake_.reset();
}

void BenchSession::break_off()
{
    if (!run_ || concluded_) {
        return;
    }
    stop_line();
    pump();
    run_->abandon(Ending::interrupted);
    concluded_ = true;
    if (feed_->raw().moment_s.empty()) {
        folder_->discard();
        return;
    }
    end_log();
}

RunResult BenchSession::conclude()
{
    stop_line();
    if (!concluded_) {
        pump();
        end_log();
        concluded_ = true;
    }
    auto evidence = records::load_record_evidence(folder_->part());
    auto assessed = records::assess(evidence);
    return {*folder_, std::move(evidence), std::move(assessed), run_->ending(), set_up_.bench_file, set_up_.key};
}

} // namespace zeroline::session
