#include "gui/console/readiness.hpp"

#include "acquisition/serial/line_errors.hpp"
#include "acquisition/trace/input_error.hpp"
#include "gui/console/interrupt.hpp"
#include "gui/console/templates.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/key_list.hpp"
#include "gui/session/instrument_state.hpp"
#include "gui/session/number_text.hpp"
#include "gui/session/sealing_needs.hpp"

#include <nlohmann/json.hpp>
#include <unistd.h>

#include <cerrno>
#include <charconv>
#include <chrono>
#include <fstream>
#include <optional>
#include <system_error>
#include <thread>

namespace zeroline::console {

namespace fs = std::filesystem;

namespace {

using namespace std::chrono_literals;

constexpr double kPatience_s = 0.5; // beyond the instrument's settling time, for opening

// Days since 1970 of a date that the instrument file's reader has accepted.
std::optional<std::chrono::sys_days> day_number(const std::string& date)
{
    int year = 0;
    unsigned month = 0;
    unsigned day = 0;
    const auto part = [&](std::size_t at, std::size_t length, auto& number) {
        const char* const begin = date.data() + at;
        return std::from_chars(begin, begin + length, number).ec == std::errc{};
    };
    if (date.size() != 10 || !part(0, 4, year) || !part(5, 2, month) || !part(8, 2, day)) {
        return std::nullopt;
    }
    return std::chrono::year(year) / std::chrono::month(month) / std::chrono::day(day);
}

std::string days_left(const std::string& from, const std::string& to)
{
    const auto first = day_number(from);
    const auto last = day_number(to);
    if (!first || !last || *last - *first > std::chrono::days(kSoon_days)) {
        return {};
    }
    return "; it ends within " + std::to_string(kSoon_days) + " days";
}

std::string first_line_of(const fs::path& file)
{
    std::ifstream stream(file);
    std::string line;
    std::getline(stream, line);
    return line;
}

// The sentence of why nothing came, or empty once a reading has come.
std::string trouble_of(const std::string& port, const trace::Instrument& instrument, double listen_s)
{
    serial::CaptureSettings settings;
    settings.port = port;
    settings.instrument = instrument;
    settings.silence_s = listen_s;
    serial::Capture capture(settings);
    try {
        capture.start();
    } catch (const trace::InputError& refused) {
        return refused.what();
    }
    const auto until = std::chrono::steady_clock::now() +
                       std::chrono::duration<double>(instrument.port.settle_s + listen_s + kPatience_s);
    const EndsCleanly guarded;
    while (capture.counters().readings == 0 && std::chrono::steady_clock::now() < until && !interrupted()) {
        std::this_thread::sleep_for(10ms);
    }
    const bool came = capture.counters().readings > 0;
    const std::string said = capture.message();
    capture.stop();
    return came ? std::string() : said.empty() ? "nothing came from " + port : said;
}

} // namespace

Check check_calibration(const trace::Instrument& instrument, const std::string& day)
{
    const auto& calibration = instrument.calibration;
    const std::string name = "certificate " + calibration.certificate;
    const auto example = records::parse_json(template_text(Template::instrument));
    if (calibration.certificate == example.at("calibration").at("certificate").get<std::string>()) {
        return {false, "calibration",
                name +
                    " is an example's: write the number and days of this transducer's own certificate into the file"};
    }
    // Dates as YYYY-MM-DD sort like days.
    if (day > calibration.due) {
        return {false, "calibration",
                name + " was valid to " + calibration.due + ", not on " + day +
                    ": results would be indicative only; have the transducer calibrated, or take another one"};
    }
    if (day < calibration.on) {
        return {false, "calibration",
                name + " is of " + calibration.on + ", later than " + day + ": check the date, or the instrument file"};
    }
    return {true, "calibration", name + " is valid to " + calibration.due + days_left(day, calibration.due)};
}

Check check_span(const fs::path& instrument_file, const std::string& day)
{
    const auto state = session::instrument_state(instrument_file, day, false);
    return {!state.item || state.caution.empty(), "second gauge",
            state.caution.empty() ? "checked " + state.item->remark : state.caution};
}

Check check_range(const verification::WorkOrder& order, const trace::Instrument& instrument)
{
    const double low = trace::to_cmH2O(instrument.calibrated_low(), instrument.range.unit);
    const double high = trace::to_cmH2O(instrument.calibrated_high(), instrument.range.unit);
    const std::string range =
        session::signed_fixed_text(low, 0) + " to " + session::signed_fixed_text(high, 0) + " cmH2O";
    for (const auto& preset : order.presets) {
        for (const double pressure : {preset.insufflation.pressure_cmH2O, preset.exsufflation.pressure_cmH2O}) {
            if (pressure < low || pressure > high) {
                return {false, "range",
                        "preset '" + preset.name + "' asks for " + session::signed_fixed_text(pressure, 0) +
                            " cmH2O, the calibration covers " + range + "; take a transducer calibrated that far"};
            }
        }
    }
    return {true, "range", "the calibration covers " + range + ", and with it every preset"};
}

Check check_permission(const std::string& port)
{
    if (::access(port.c_str(), R_OK | W_OK) == 0) {
        return {true, "port", port + " may be opened"};
    }
    return {false, "port", serial::cannot_open(port, errno).what()};
}

Check check_sensor(const std::vector<std::string>& ports, const trace::Instrument& instrument, double listen_s)
{
    if (ports.empty()) {
        return {false, "sensor", "no serial port is there: plug the transducer in, then `zeroline ports` lists it"};
    }
    std::string troubles;
    for (const auto& port : ports) {
        const auto trouble = trouble_of(port, instrument, listen_s);
        if (trouble.empty()) {
            return {true, "sensor", instrument.name + " reads on " + port};
        }
        troubles += (troubles.empty() ? "" : "; ") + trouble;
    }
    return {false, "sensor", troubles};
}

Check check_sealing(const std::optional<verification::WorkOrder>& order,
                    const std::optional<verification::Bench>& bench)
{
    verification::WorkOrder any;
    any.customer = "of an order that is not known yet";
    // Place and name are typed when the run begins.
    const auto needs = session::sealing_needs(order ? *order : any, bench ? &*bench : nullptr, "typed", "typed");
    if (!needs.empty()) {
        return {false, "sealing",
                "a record cannot be sealed without: " + session::words_of(needs) +
                    "; write it into the bench file ('zeroline new bench') or the order"};
    }
    return {true, "sealing", "organisation and address are known; place and name are asked for when the run begins"};
}

Check check_key(const fs::path& key_file)
{
    try {
        const auto list = records::load_own_list(key_file);
        if (std::error_code none; !fs::exists(key_file, none)) {
            return list ? Check{false, "key",
                                key_file.string() + " is gone: put its backup back, or give it up with 'zeroline key "
                                                    "--lost WHY'; nothing can be sealed without it"}
                        : Check{true, "key", "none yet; the first record makes " + key_file.string()};
        }
        if (records::SigningKey::is_locked(key_file)) {
            return {true, "key", key_file.string() + " asks for its passphrase when the run begins"};
        }
        const auto key = records::SigningKey::load(key_file).public_key();
        if (list && !list->name_of(key).empty() && !list->may_seal(key)) {
            return {false, "key", key_file.string() + " was retired or revoked; 'zeroline key' tells of it"};
        }
        return {true, "key", key_file.string() + " can seal"};
    } catch (const trace::InputError& error) {
        return {false, "key", error.what()};
    }
}

Check check_disk(const fs::path& folder)
{
    std::error_code unknown;
    const auto space = fs::space(folder, unknown);
    if (unknown) {
        return {false, "disk", folder.string() + ": " + unknown.message() + "; go to a folder that is there"};
    }
    if (::access(folder.c_str(), W_OK | X_OK) != 0) {
        return {false, "disk", folder.string() + " is read-only for you; go to a folder you may write to"};
    }
    const std::string free = std::to_string(space.available / 1'000'000) + " MB free in " + folder.string();
    if (space.available < kEnoughSpace_bytes) {
        return {false, "disk",
                free + ", at least " + std::to_string(kEnoughSpace_bytes / 1'000'000) + " MB are wanted; make room"};
    }
    return {true, "disk", free};
}

Check check_battery(const fs::path& power_supplies)
{
    std::optional<int> lowest;
    std::error_code none;
    for (const auto& supply : fs::directory_iterator(power_supplies, none)) {
        const bool own =
            first_line_of(supply.path() / "type") == "Battery" && first_line_of(supply.path() / "scope") != "Device";
        const auto charge = first_line_of(supply.path() / "capacity");
        int percent = 0;
        const auto read = std::from_chars(charge.data(), charge.data() + charge.size(), percent);
        if (own && read.ec == std::errc{}) {
            lowest = std::min(lowest.value_or(percent), percent);
        }
    }
    if (!lowest) {
        return {true, "battery", "this computer has none: it needs the mains"};
    }
    const std::string charge = "charged to " + std::to_string(*lowest) + " %";
    if (*lowest < kEnoughCharge_percent) {
        return {false, "battery",
                charge + ", at least " + std::to_string(kEnoughCharge_percent) +
                    " % are wanted; charge it, or take the mains lead along"};
    }
    return {true, "battery", charge};
}

} // namespace zeroline::console
