#pragma once

#include "gui/session/bench_session.hpp"
#include "gui/session/cycle_overlay.hpp"
#include "gui/session/result_view.hpp"

#include <QWidget>

#include <filesystem>

class QComboBox;

namespace zeroline::charts {
class OverlayChart;
class PictureView;
class TraceChart;
} // namespace zeroline::charts

namespace zeroline::window {

class RegisterReader;

/// The charts of a result: all cycles of a preset with their median and that of the visit before, close-ups of the
/// plateaus about their limits, the zero readings, and the whole trace.
class ResultCharts : public QWidget {
    Q_OBJECT
public:
    explicit ResultCharts(QWidget* parent = nullptr);

    /// The whole trace and the zero readings, to stand where there is more room.
    [[nodiscard]] QWidget* whole() const noexcept { return whole_; }

    /// Where the visit before is looked for, unless the record holds it itself.
    void use_register(RegisterReader* reader) { reader_ = reader; }
    /// Both outlive the next call. `folder`: of the record, which may hold the one of the visit before.
    void show_result(const session::RunResult& result, const session::ResultView& view,
                     const std::filesystem::path& folder);

private:
    void show_trace();
    void show_zero();
    void show_preset();
    void ask_for_visit_before(const std::string& preset);
    void show_close_up(charts::PictureView* view, const session::CycleOverlay& overlay,
                       const std::vector<session::PhaseBand>& bands, signal::PhaseKind phase);
    [[nodiscard]] session::PhaseLimits limits() const;
    [[nodiscard]] verification::HouseProfile house() const;

    const session::RunResult* result_ = nullptr;
    const session::ResultView* view_ = nullptr;
    std::filesystem::path folder_;
    RegisterReader* reader_ = nullptr;
    int shown_ = 0; ///< counts results and presets: an answer for an earlier one is dropped
    session::CycleOverlay overlaid_;
    std::vector<session::PhaseBand> bands_;
    session::TraceHistory history_;
    QComboBox* preset_;
    QWidget* whole_;
    charts::OverlayChart* overlay_;
    charts::PictureView *insufflation_, *exsufflation_, *zero_;
    charts::TraceChart* trace_;
};

/// The strips of a result, worst values against their limits, to stand beside the verdict.
[[nodiscard]] charts::PictureView* make_limit_strips();
void show_limit_strips(charts::PictureView* strips, const session::ResultView& view);

} // namespace zeroline::window
