#pragma once

#include "tests/gui/session/played_run.hpp"

#include <gmock/gmock.h>

#include <optional>
#include <string>
#include <vector>

namespace zeroline::session {

using verification::SpanKind;

/// A judge that knows as many judged cycles as the test says.
struct CountingJudge {
    int judged = 0;
    int not_judged = 0;
    int cycles_before = 0;     ///< of holds by hand
    bool in_first_run = false; ///< the cycles lie in the first automatic span, not in the last one
    bool critical = false;
    std::string finding;

    verification::Assessment operator()(const verification::RunLog& log) const
    {
        verification::Assessment assessment;
        assessment.critical = critical;
        if (!finding.empty()) {
            assessment.findings.push_back({finding, verification::Severity::critical, {}, {}, {}, {}, {}, {}});
        }
        std::size_t span = 0;
        for (std::size_t i = 0; i < log.spans.size(); ++i) {
            const auto what = log.spans[i].what;
            const bool cycles = what == SpanKind::automatic || what == SpanKind::ladder;
            span = cycles && !(in_first_run && span > 0) ? i : span;
        }
        for (int i = 0; i < not_judged + judged; ++i) {
            verification::Cycle cycle;
            cycle.preset = log.spans.back().preset;
            cycle.judged = i >= not_judged;
            cycle.index = cycles_before + i + 1;
            cycle.span = span;
            assessment.cycles.push_back(cycle);
        }
        return assessment;
    }
};

class BenchRunTest : public testing::Test {
protected:
    BenchRunTest() : order_(short_order()) { begin(); }

    void begin()
    {
        RunSettings settings;
        settings.wait_s = 30.0;
        settings.duty = {90.0, 30.0};
        run_.emplace(order_, settings, [this](const verification::RunLog& log) { return judge_(log); });
    }

    /// Plays what was drawn since the last call, time running with the samples.
    void play()
    {
        for (const auto& sample : pressure_.take()) {
            run_->push({&sample, 1});
            run_->advance(sample.time_s);
            now_s_ = sample.time_s;
        }
    }
    void wait(double seconds)
    {
        for (double t = 0.0; t < seconds; t += 0.1) {
            now_s_ += 0.1;
            run_->advance(now_s_);
        }
    }
    void to_zero()
    {
        run_->confirm();
        run_->confirm();
        run_->confirm();
    }
    void to_manual()
    {
        to_zero();
        pressure_.hold(0.0, 6.0);
        play();
    }
    void to_automatic()
    {
        to_manual();
        pressure_.hold(0.0, 2.0).toggles(40.0, -40.0).toggles(40.0, -40.0);
        play();
    }
    std::vector<SpanKind> spans() const
    {
        std::vector<SpanKind> kinds;
        for (const auto& span : run_->log().spans) {
            kinds.push_back(span.what);
        }
        return kinds;
    }
    std::string news()
    {
        std::string all;
        for (const auto& one : run_->take_news()) {
            all += one.text + "\n";
        }
        return all;
    }

    verification::WorkOrder order_;
    CountingJudge judge_;
    DrawnPressure pressure_;
    std::optional<BenchRun> run_;
    double now_s_ = 0.0;
};

} // namespace zeroline::session
