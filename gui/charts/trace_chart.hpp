#pragma once

#include "gui/charts/plot_view.hpp"
#include "gui/session/run_marks.hpp"

class QPushButton;

namespace zeroline::charts {

/// The trace of a run: line, the band of each phase where that phase is, cycle numbers, hatching where nothing came in.
///
/// A live trace shows the newest seconds and what is expected next, until a person looks elsewhere; End goes back to
/// live. The cost of a frame depends on the width in pixels alone.
class TraceChart : public PlotView {
    Q_OBJECT
public:
    static constexpr double kAhead_s = 3.0; ///< room of a live trace for what is expected next

    explicit TraceChart(QWidget* parent = nullptr);

    /// Shows that trace from now on; it must outlive the chart or the next call. Null: nothing.
    void show_trace(const session::TraceHistory* history, bool live);
    void show_marks(session::RunMarks marks);
    /// Zero is read: the axis of pressures goes to +-1 cmH2O only, or as far as the trace does.
    void show_close_to_zero(bool close);
    /// The trace has grown.
    void refresh();

    [[nodiscard]] bool live() const noexcept { return following_; } ///< it shows the newest seconds
    [[nodiscard]] int points() const;                               ///< of the line as it was drawn last

    [[nodiscard]] QSize sizeHint() const override { return {640, 360}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return least(5); }

protected:
    [[nodiscard]] Reach all() const override;
    [[nodiscard]] Picture picture(const Reach& part, int columns) const override;
    [[nodiscard]] std::optional<Pointed> pointed(double across) const override;
    [[nodiscard]] double origin() const override;
    [[nodiscard]] double fixed_share() const override;
    void looked_elsewhere() override;
    void start_over() override;
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void set_up_back_to_live();
    void lay_out();
    void follow();
    void widen(const Reach& part);

    const session::TraceHistory* history_ = nullptr;
    session::RunMarks marks_;
    bool live_ = false, following_ = false, close_ = false;
    double edge_cmH2O_;
    QPushButton* back_to_live_;
};

} // namespace zeroline::charts
