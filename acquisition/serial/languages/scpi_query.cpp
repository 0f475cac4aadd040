#include "acquisition/serial/languages/scpi_query.hpp"

#include "acquisition/serial/languages/line_timing.hpp"
#include "acquisition/serial/languages/number_text.hpp"
#include "acquisition/serial/languages/shown_text.hpp"

#include <utility>

namespace zeroline::serial {

namespace {

using trace::NoteKind;

constexpr std::string_view kAskIdentity = "*IDN?";
constexpr std::string_view kAskError = "SYST:ERR?";

Asking::Plan plan_for(const trace::Instrument& instrument)
{
    Asking::Plan plan;
    plan.period_s = polling_period_s(instrument);
    plan.timeout_s = instrument.language.timeout_s;
    plan.retries = instrument.language.retries;
    plan.request_s = wire_time_s(instrument.port, instrument.language.query.size() + 2);
    plan.most_waiting = instrument.language.pipelined ? 2 : 1;
    return plan;
}

} // namespace

ScpiQuery::ScpiQuery(const trace::Instrument& instrument)
    : language_(instrument.language),
      lines_(language_.kind == trace::Language::Kind::polled_lines ? std::make_unique<NumericLines>(language_)
                                                                   : nullptr),
      query_(instrument.language.query), line_end_(instrument.language.line_end), asking_(plan_for(instrument))
{
    restart();
}

void ScpiQuery::restart()
{
    drop_line({});
    asking_.restart();
    asked_.clear();
    identity_asked_ = lines_ != nullptr;
    error_wanted_ = false;
    error_read_ = false;
    if (lines_) {
        lines_->restart();
        lines_->begin_with_whole_line();
    }
}

std::string ScpiQuery::to_send(double now_s)
{
    if (asking_.overdue(now_s)) {
        give_up(now_s);
    }
    return may_ask_next() && asking_.due(now_s) ? ask(next_question(), now_s) : std::string();
}

double ScpiQuery::next_s() const { return may_ask_next() ? asking_.next_s() : asking_.overdue_s(); }

// What is no reading goes alone: nothing else is under way.
bool ScpiQuery::may_ask_next() const { return next_question() == Question::reading || !asking_.waiting(); }

ScpiQuery::Question ScpiQuery::next_question() const
{
    if (!identity_asked_) {
        return Question::identity;
    }
    return error_wanted_ ? Question::error : Question::reading;
}

std::string ScpiQuery::ask(Question question, double now_s)
{
    asked_.push_back(question);
    asking_.ask(now_s, question == Question::reading);
    switch (question) {
    case Question::identity:
        identity_asked_ = true;
        return std::string(kAskIdentity) + line_end_;
    case Question::error:
        error_wanted_ = false;
        error_read_ = true;
        return std::string(kAskError) + line_end_;
    case Question::reading:
        break;
    }
    return query_ + line_end_;
}

void ScpiQuery::give_up(double now_s)
{
    const Question question = asked_.empty() ? Question::reading : asked_.front();
    asked_.clear();
    drop_line({});
    const bool again = asking_.give_up(now_s);
    if (question == Question::reading) {
        discard(0, "no answer to " + shown(query_));
        error_wanted_ = !again && !error_read_ && !lines_;
    }
}

void ScpiQuery::feed(std::string_view bytes, double arrival_s, std::vector<Reading>& out)
{
    asking_.heard(arrival_s);
    for (const char c : bytes) {
        if (is_line_end(c) || (lines_ && lines_->ends_line(c))) {
            end_line(arrival_s, out);
        } else if (too_long_) {
            discard(1, trouble());
        } else if (line_.size() == kLongestAnswer) {
            drop_line("an answer is too long");
            too_long_ = true;
            discard(1, trouble());
        } else {
            line_ += c;
        }
    }
}

void ScpiQuery::end_line(double arrival_s, std::vector<Reading>& out)
{
    if (std::exchange(too_long_, false)) {
        discard(1, trouble());
        return;
    }
    if (line_.empty()) {
        understand(1);
        return;
    }
    const std::string_view text = trimmed(line_);
    if (text == trimmed(query_) || text == kAskIdentity || text == kAskError) {
        drop_ended_line(trouble()); // the instrument, or the cable, echoes
        return;
    }
    const auto mid_s = asking_.answered(arrival_s);
    if (!mid_s || asked_.empty()) {
        drop_ended_line("something comes that was not asked for: " + shown(text));
        return;
    }
    const Question question = asked_.front();
    asked_.pop_front();
    const auto before = discarded_bytes();
    take_answer(question, *mid_s, out);
    line_.clear();
    if (discarded_bytes() > before) {
        asking_.distrust(arrival_s);
    } else {
        asking_.trust();
    }
}

void ScpiQuery::take_answer(Question question, double mid_s, std::vector<Reading>& out)
{
    switch (question) {
    case Question::identity:
        identity_ = printable(trimmed(line_));
        understand(line_.size() + 1);
        return;
    case Question::error:
        take_error();
        return;
    case Question::reading:
        lines_ ? take_line(mid_s, out) : take_reading(mid_s, out);
        return;
    }
}

void ScpiQuery::take_line(double mid_s, std::vector<Reading>& out)
{
    const auto before = lines_->discarded_bytes();
    lines_->feed(line_ + '\n', mid_s, out);
    const std::size_t dropped = lines_->discarded_bytes() - before;
    understand(line_.size() + 1 - dropped);
    if (dropped > 0) {
        discard(dropped, lines_->trouble());
    } else {
        clear_trouble();
    }
}

// SCPI-99: the answer is a number and a text, 0 where there is no error.
void ScpiQuery::take_error()
{
    understand(line_.size() + 1);
    const std::string_view answer = trimmed(line_);
    const NumberText code = read_number(answer.substr(0, answer.find(',')));
    if (code.kind != NumberKind::finite || code.value != 0.0) {
        discard(0, "the instrument says " + printable(answer));
    }
}

void ScpiQuery::take_reading(double mid_s, std::vector<Reading>& out)
{
    const NumberText number = read_number(line_);
    if (number.kind == NumberKind::none) {
        error_wanted_ = !error_read_;
        drop_ended_line("the answer is no number: " + shown(line_));
        return;
    }
    Reading reading;
    reading.arrival_s = mid_s;
    reading.has_note = number.kind != NumberKind::finite;
    if (reading.has_note) {
        reading.note = number.kind == NumberKind::overrange ? NoteKind::overrange : NoteKind::not_a_number;
    } else {
        reading.value = number.value * language_.scale + language_.offset;
    }
    error_read_ = false;
    clear_trouble();
    understand(line_.size() + 1);
    deliver(reading, out);
}

void ScpiQuery::drop_ended_line(std::string trouble)
{
    discard(1, {}); // its line end
    drop_line(std::move(trouble));
}

void ScpiQuery::drop_line(std::string trouble)
{
    discard(line_.size(), std::move(trouble));
    line_.clear();
}

} // namespace zeroline::serial
