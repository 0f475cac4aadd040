#pragma once

namespace zeroline::session {

/// Which part of a trace is looked at: the newest seconds, or a stretch that a person zoomed and dragged to.
///
/// Pure arithmetic, no pixels: a share is a place across the picture, 0 at the left edge, 1 at the right.
class TraceViewport {
public:
    static constexpr double kShortest_s = 0.05;

    explicit TraceViewport(double live_s = 20.0) : live_s_(live_s), width_s_(live_s) {}

    /// What there is to look at; a live view moves along.
    void set_extent(double first_s, double last_s);
    /// Everything from the first to the last sample.
    void show_all();
    /// The newest `live_s` seconds again, moving along.
    void back_to_live();
    /// Makes the stretch `factor` times as long (below 1: closer), what stands at `share` stays there.
    void zoom(double factor, double share);
    /// Moves the picture by a share of its width; positive: later.
    void pan(double share);

    [[nodiscard]] bool live() const noexcept { return live_; }
    [[nodiscard]] double from_s() const noexcept { return from_s_; }
    [[nodiscard]] double to_s() const noexcept { return from_s_ + width_s_; }
    [[nodiscard]] double at(double share) const noexcept { return from_s_ + share * width_s_; }

private:
    void follow();
    void keep_inside();

    double live_s_;
    double width_s_;
    double from_s_ = 0.0;
    double first_s_ = 0.0, last_s_ = 0.0;
    bool live_ = true;
};

} // namespace zeroline::session
