#pragma once

#include "acquisition/serial/languages/asking.hpp"
#include "acquisition/serial/languages/decoder.hpp"
#include "acquisition/serial/languages/numeric_lines.hpp"

#include <deque>
#include <string>
#include <string_view>
#include <vector>

namespace zeroline::serial {

/// An instrument that answers a query line: with one IEEE 488.2 number (NR1, NR2, NR3), or, where the language is
/// polled-lines, with a line that is read as those of NumericLines. Such an instrument is asked nothing but its query.
///
/// Asks `*IDN?` once after opening. SCPI-99's 9.9E37 and 9.91E37 are readings without value. An answer that is no
/// number, or none at all, makes it read `SYST:ERR?`, once until readings come again. A second query is under way
/// before the first is answered only where the instrument file says `pipelined`. Readings carry the mid-time of query
/// and answer. Bytes nobody asked for, echoes of a query and lines longer than kLongestAnswer are discarded.
class ScpiQuery final : public Decoder {
public:
    static constexpr std::size_t kLongestAnswer = 256;

    explicit ScpiQuery(const trace::Instrument& instrument);

    void feed(std::string_view bytes, double arrival_s, std::vector<Reading>& out) override;
    void restart() override;
    [[nodiscard]] std::size_t unfinished_bytes() const noexcept override { return line_.size(); }
    std::string to_send(double now_s) override;
    [[nodiscard]] double next_s() const override;
    [[nodiscard]] std::string identity() const override { return identity_; }
    [[nodiscard]] std::uint64_t unanswered() const override { return asking_.unanswered(); }

private:
    enum class Question { identity, reading, error };

    [[nodiscard]] Question next_question() const;
    [[nodiscard]] bool may_ask_next() const;
    std::string ask(Question question, double now_s);
    void give_up(double now_s);
    void end_line(double arrival_s, std::vector<Reading>& out);
    void take_answer(Question question, double mid_s, std::vector<Reading>& out);
    void take_error();
    void take_reading(double mid_s, std::vector<Reading>& out);
    void take_line(double mid_s, std::vector<Reading>& out);
    void drop_line(std::string trouble);
    void drop_ended_line(std::string trouble);

    trace::Language language_;
    std::unique_ptr<NumericLines> lines_; ///< reads the answers of polled-lines; else null
    std::string query_;
    std::string line_end_;
    Asking asking_;
    std::deque<Question> asked_;
    std::string line_;
    bool too_long_ = false;
    bool identity_asked_ = false;
    bool error_wanted_ = false;
    bool error_read_ = false; ///< since the last reading
    std::string identity_;
};

} // namespace zeroline::serial
