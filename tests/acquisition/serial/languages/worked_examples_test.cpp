// The examples of docs/instruments.md, played against the decoders.

#include "acquisition/serial/languages/decoder.hpp"
#include "acquisition/trace/instrument.hpp"
#include "acquisition/trace/trace_csv.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fstream>
#include <sstream>

namespace zeroline::serial::test {
namespace {

struct Example {
    nlohmann::json instrument; ///< `port` and `language` only
    std::vector<std::string> capture;
};

std::vector<std::string> lines_of_page()
{
    std::ifstream page(ZEROLINE_SOURCE_DIR "/docs/instruments.md");
    std::vector<std::string> lines;
    for (std::string line; std::getline(page, line);) {
        lines.push_back(line);
    }
    return lines;
}

std::vector<std::string> block_after(const std::vector<std::string>& lines, std::size_t& at)
{
    std::vector<std::string> block;
    for (++at; at < lines.size() && lines[at] != "```"; ++at) {
        block.push_back(lines[at]);
    }
    return block;
}

std::vector<Example> examples()
{
    const auto lines = lines_of_page();
    std::vector<Example> found;
    for (std::size_t at = 0; at < lines.size(); ++at) {
        if (lines[at] == "```json") {
            std::string text;
            for (const std::string& line : block_after(lines, at)) {
                text += line + "\n";
            }
            found.push_back({nlohmann::json::parse(text), {}});
        } else if (lines[at] == "```capture") {
            found.back().capture = block_after(lines, at);
        }
    }
    return found;
}

trace::Instrument completed(nlohmann::json serial_side)
{
    nlohmann::json whole = nlohmann::json::parse(R"({
        "schema": "zeroline/instrument/1", "name": "invented", "serial": "1",
        "range": {"low": -100, "high": 100, "resolution": 0.01, "unit": "cmH2O"},
        "rate": {"nominal_hz": 100, "clock_ppm": 100},
        "calibration": {"certificate": "invented", "on": "2026-01-02", "due": "2027-01-02",
                        "expanded_uncertainty": 0.2, "coverage_factor": 2}})");
    whole.update(serial_side);
    return trace::parse_instrument(whole);
}

std::string without_remark(const std::string& line)
{
    const auto end = line.find_last_not_of(' ', std::min(line.find(" #"), line.size()));
    return line.substr(0, end + 1);
}

std::string unescaped(std::string_view text)
{
    std::string bytes;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != '\\') {
            bytes += text[i];
            continue;
        }
        ++i;
        if (text[i] == 'x') {
            int value = 0;
            std::from_chars(text.data() + i + 1, text.data() + i + 3, value, 16);
            bytes += static_cast<char>(value);
            i += 2;
        } else {
            bytes += text[i] == 'r' ? '\r' : '\n';
        }
    }
    return bytes;
}

/// Plays one capture line by line.
class Played {
public:
    explicit Played(const Example& example) : decoder_(decoder_for(completed(example.instrument))) {}

    void line(const std::string& text)
    {
        SCOPED_TRACE(text);
        const std::string content = text.substr(2);
        now_s_ += 0.05;
        switch (text[0]) {
        case '<':
            decoder_->feed(unescaped(content), now_s_, readings_);
            break;
        case '>':
            now_s_ = std::max(now_s_, decoder_->next_s());
            EXPECT_EQ(decoder_->to_send(now_s_), unescaped(content));
            break;
        case '=':
            EXPECT_NEAR(next().value, std::stod(content), 1e-9);
            break;
        case '!':
            EXPECT_EQ(trace::word_of(next().note), content);
            break;
        case '~':
            EXPECT_EQ(decoder_->discarded_bytes(), std::stoul(content));
            break;
        default:
            ADD_FAILURE() << "what is this line?";
        }
    }

    [[nodiscard]] bool all_readings_named() const { return taken_ == readings_.size(); }

private:
    Reading next()
    {
        EXPECT_LT(taken_, readings_.size());
        return taken_ < readings_.size() ? readings_[taken_++] : Reading{};
    }

    std::unique_ptr<Decoder> decoder_;
    std::vector<Reading> readings_;
    std::size_t taken_ = 0;
    double now_s_ = 0.0;
};

TEST(WorkedExamples, of_the_page_on_instruments_do_what_the_page_says)
{
    const auto all = examples();
    ASSERT_EQ(all.size(), 8u);
    for (const Example& example : all) {
        SCOPED_TRACE(example.instrument.dump());
        ASSERT_GT(example.capture.size(), 5u);
        Played played(example);
        for (const std::string& line : example.capture) {
            played.line(without_remark(line));
        }
        EXPECT_TRUE(played.all_readings_named());
    }
}

} // namespace
} // namespace zeroline::serial::test
