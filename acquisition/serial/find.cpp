#include "acquisition/serial/find.hpp"

#include "acquisition/serial/asio.hpp"
#include "acquisition/serial/languages/decoder.hpp"
#include "acquisition/serial/languages/line_guess.hpp"
#include "acquisition/serial/languages/shown_text.hpp"
#include "acquisition/serial/serial_link.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

namespace zeroline::serial {

namespace {

namespace asio = boost::asio;
using trace::Language;
using trace::Parity;
using trace::PortSettings;
using Clock = std::chrono::steady_clock;

constexpr double kAnswer_s = 0.4;
constexpr int kFirstRegisters = 16;   // are asked for where an instrument knows no register 0
constexpr double kText = 0.95;        // share of readable bytes that makes a text
constexpr double kHalfText = 0.3;     // less than this is another rate altogether
constexpr std::size_t kEnough = 4096; // bytes that show everything

std::chrono::nanoseconds in_nanoseconds(double seconds)
{
    return std::chrono::nanoseconds(std::llround(seconds * 1e9));
}

// Modbus' own default comes with even parity; most instruments leave it out.
std::vector<PortSettings> usual_settings(const PortSettings& first)
{
    std::vector<PortSettings> all{first};
    for (const int baud : {9600, 115200, 19200, 38400, 57600, 4800, 230400, 2400, 1200}) {
        PortSettings settings = first;
        settings.baud = baud;
        settings.data_bits = 8;
        settings.parity = Parity::none;
        settings.stop_bits = 1;
        if (in_words(settings) != in_words(first)) {
            all.push_back(settings);
        }
    }
    return all;
}

PortSettings with_parity(PortSettings settings, Parity parity, int data_bits = 8)
{
    settings.parity = parity;
    settings.data_bits = data_bits;
    return settings;
}

std::string known_units()
{
    std::string names;
    for (const auto unit : trace::all_pressure_units()) {
        names += (names.empty() ? "" : ", ") + std::string(trace::name_of(unit));
    }
    return names;
}

bool is_exception(const std::string& trouble) { return trouble.find("exception") != std::string::npos; }

// One search over one port.
class Search {
public:
    explicit Search(const SearchSettings& settings) : settings_(settings) {}

    SearchResult run()
    {
        listen_to_all();
        if (result_.fits.empty() && most_bytes_ == 0 && settings_.may_ask) {
            ask_all();
        }
        if (result_.fits.empty()) {
            result_.sentence = nothing_fits();
        }
        return std::move(result_);
    }

private:
    [[nodiscard]] bool go_on(const std::string& what)
    {
        stopped_ = stopped_ || (settings_.progress && !settings_.progress(what));
        return !stopped_;
    }

    std::string hear(const PortSettings& port, double& listened_s)
    {
        asio::io_context io;
        SerialLink link(io);
        link.open(settings_.port, port);
        std::string heard;
        link.listen(
            [&](std::string_view bytes) {
                heard += bytes;
                if (heard.size() >= kEnough) {
                    io.stop();
                }
            },
            [] {});
        link.send(port.start);
        const auto began = Clock::now();
        io.run_for(in_nanoseconds(port.settle_s + settings_.listen_s));
        listened_s = std::chrono::duration<double>(Clock::now() - began).count();
        return heard;
    }

    // A rate that is wrong still brings bytes: where the first setting brings none, the instrument says nothing.
    void listen_to_all()
    {
        for (const PortSettings& port : usual_settings(settings_.first)) {
            if (!go_on("listening at " + in_words(port))) {
                return;
            }
            if (listen_at(port) || !unknown_unit_.empty() || (tried_ == 1 && most_bytes_ == 0)) {
                return;
            }
        }
    }

    bool listen_at(const PortSettings& port)
    {
        const LineGuess guess = heard_at(port);
        const bool parity_may_be_wrong = guess.text_share > kHalfText && guess.text_share < kText;
        for (const Parity parity : {Parity::even, Parity::odd}) {
            if (result_.fits.empty() && parity_may_be_wrong && port.parity != parity) {
                heard_at(with_parity(port, parity));
            }
        }
        return !result_.fits.empty();
    }

    LineGuess heard_at(const PortSettings& port)
    {
        double listened_s = 0.0;
        const std::string bytes = hear(port, listened_s);
        const LineGuess guess = guess_lines(bytes);
        ++tried_;
        most_bytes_ = std::max(most_bytes_, bytes.size());
        if (guess.text_share > best_.text_share) {
            best_ = guess;
            best_port_ = port;
        }
        unknown_unit_ = guess.unknown_unit.empty() ? unknown_unit_ : guess.unknown_unit;
        const PortSettings fitting =
            guess.seven_bit_parity == Parity::none ? port : with_parity(port, guess.seven_bit_parity, 7);
        for (std::size_t i = 0; i < guess.languages.size(); ++i) {
            const Language& language = guess.languages[i];
            result_.fits.push_back({fitting,
                                    language,
                                    guess.reads[i],
                                    language.unit_field.has_value(),
                                    static_cast<double>(guess.lines) / listened_s,
                                    guess.example,
                                    {}});
        }
        return guess;
    }

    void ask_all()
    {
        for (const PortSettings& port : usual_settings(settings_.first)) {
            if (!go_on("asking at " + in_words(port)) || ask_queries(port) || ask_registers(port) ||
                ask_registers(with_parity(port, Parity::even))) {
                return;
            }
        }
    }

    bool ask_queries(const PortSettings& port)
    {
        for (const char* query : {"READ?", "MEAS?", "MEAS:PRES?"}) {
            Language language;
            language.kind = Language::Kind::scpi_query;
            language.query = query;
            if (answers(port, language)) {
                return true;
            }
            if (!said_who_) {
                return false; // who does not answer *IDN? does not speak this language
            }
        }
        return true; // this is its line: nothing is to be found at another rate
    }

    // Another register only where the first request got an answer, if an exception: that also ends the search
    // elsewhere.
    bool ask_registers(const PortSettings& port)
    {
        refused_ = false;
        for (const int function : {3, 4}) {
            Language language;
            language.kind = Language::Kind::modbus_rtu;
            language.function = function;
            for (int first = 0; first == 0 || (refused_ && first < kFirstRegisters); ++first) {
                language.first_register = first;
                if (answers(port, language)) {
                    return true;
                }
            }
        }
        return refused_;
    }

    bool answers(const PortSettings& port, Language language)
    {
        language.timeout_s = kAnswer_s;
        language.retries = 0;
        trace::Instrument instrument;
        instrument.port = port;
        instrument.language = language;
        const auto decoder = decoder_for(instrument);
        const std::vector<Reading> readings = talk(port, *decoder);
        said_who_ = !decoder->identity().empty();
        ++asked_;
        if (readings.empty()) {
            note_exception(port, *decoder);
            return false;
        }
        language.timeout_s = Language{}.timeout_s;
        language.retries = Language{}.retries;
        result_.fits.push_back({port, language, readings.back().value, false, 0.0, "an answer", decoder->identity()});
        return true;
    }

    // An exception is an answer: rate, parity and address are right, the register is not.
    void note_exception(const PortSettings& port, const Decoder& decoder)
    {
        if (!decoder.identity().empty()) {
            heard_from_ = "the instrument at " + in_words(port) + " says it is " + decoder.identity() +
                          ", but answers none of the usual queries; put its own query into the instrument file";
        } else if (is_exception(decoder.trouble())) {
            refused_ = true;
            heard_from_ = "a Modbus instrument answers at " + in_words(port) + ": " + decoder.trouble() +
                          "; put its own register into the instrument file";
        }
    }

    std::vector<Reading> talk(const PortSettings& port, Decoder& decoder)
    {
        asio::io_context io;
        SerialLink link(io);
        link.open(settings_.port, port);
        std::vector<Reading> readings;
        const auto began = Clock::now();
        const auto now_s = [began] { return std::chrono::duration<double>(Clock::now() - began).count(); };
        link.listen([&](std::string_view bytes) { decoder.feed(bytes, now_s(), readings); }, [] {});
        const double until_s = 3.0 * kAnswer_s;
        while (link.is_open() && readings.empty() && now_s() < until_s && decoder.unanswered() < 1 &&
               !is_exception(decoder.trouble())) {
            link.send(decoder.to_send(now_s()));
            io.run_for(std::chrono::milliseconds(5));
            io.restart();
        }
        return readings;
    }

    [[nodiscard]] std::string nothing_fits() const
    {
        const std::string tried = std::to_string(tried_) + (tried_ == 1 ? " setting" : " settings");
        if (!heard_from_.empty()) {
            return heard_from_;
        }
        if (most_bytes_ == 0) {
            return "not one byte came from " + settings_.port +
                   (asked_ > 0 ? ", nor an answer to a query or a Modbus request at the usual rates" : "") +
                   "; check the cable (transmit and receive crossed?), the instrument's power, its dtr and rts, and "
                   "whether it must be told to send";
        }
        if (best_.text_share < kText) {
            return "bytes came from " + settings_.port + ", but no text at " + tried +
                   "; is it a binary language, an unusual rate or parity, or a damaged line?";
        }
        if (best_.lines == 0) {
            return "text came from " + settings_.port + " at " + in_words(best_port_) + ", but too few whole lines";
        }
        if (!unknown_unit_.empty()) {
            return "lines came from " + settings_.port + " at " + in_words(best_port_) + " (" + shown(best_.example) +
                   "), but the unit " + shown(unknown_unit_) + " behind the number is not known (" + known_units() +
                   "); put a known unit, and the scale that leads to it, into the instrument file";
        }
        return "lines came from " + settings_.port + " at " + in_words(best_port_) + " (" + shown(best_.example) +
               "), but no field with a number in each; does the instrument need a start text?";
    }

    const SearchSettings& settings_;
    SearchResult result_;
    LineGuess best_;
    PortSettings best_port_;
    std::string heard_from_;
    std::string unknown_unit_;
    std::size_t most_bytes_ = 0;
    int tried_ = 0;
    int asked_ = 0;
    bool refused_ = false; ///< an exception came
    bool said_who_ = false;
    bool stopped_ = false;
};

} // namespace

SearchResult find_settings(const SearchSettings& settings) { return Search(settings).run(); }

} // namespace zeroline::serial
