#include "gui/console/found_instrument.hpp"

#include "gui/console/templates.hpp"
#include "gui/records/json_file.hpp"
#include "gui/session/number_text.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace zeroline::console {

namespace {

constexpr double kAskedRate_hz = 50.0; ///< where the instrument does not send by itself
constexpr const char* kLongAgo = "2000-01-01";

nlohmann::json to_be_filled_in()
{
    auto tree = records::parse_json(template_text(Template::instrument));
    tree["$remarks"] = {
        "port, language and rate: as listen --find found them. Check which number is the pressure: blow gently.",
        "name, serial, range, calibration: to be filled in; until then the calibration counts as over.",
        "docs/instruments.md describes port and language, docs/formats.md the other keys."};
    tree["name"] = "found, name to be filled in";
    tree["serial"] = "to be filled in";
    tree["calibration"] = {{"certificate", "to be filled in"},
                           {"on", kLongAgo},
                           {"due", kLongAgo},
                           {"expanded_uncertainty", 1},
                           {"coverage_factor", 2}};
    tree.erase("response_ms");
    tree.erase("uncertainty");
    return tree;
}

} // namespace

std::string reading_of(const serial::Fit& fit)
{
    const auto unit = std::string(trace::name_of(fit.language.unit));
    const auto number = session::fixed_text(fit.reads, 3);
    return fit.unit_is_stated
               ? number + " " + unit
               : number + "; no unit is stated: \"" + unit + "\" only fills the place, put in what the data sheet says";
}

std::string instrument_file_of(const serial::Fit& fit, const std::string& known)
{
    auto tree = known.empty() ? to_be_filled_in() : records::parse_json(known);
    trace::Instrument found;
    found.port = fit.port;
    found.language = fit.language;
    const auto written = trace::to_json(found);
    tree["port"] = written.at("port");
    tree["language"] = written.at("language");
    if (known.empty()) {
        const double rate_hz = fit.rate_hz > 0.0 ? std::clamp(std::round(fit.rate_hz), 1.0, 10'000.0) : kAskedRate_hz;
        tree["rate"] = {{"nominal_hz", rate_hz}, {"clock_ppm", 100}};
    }
    return tree.dump(2) + "\n";
}

} // namespace zeroline::console
