#include "gui/console/found_instrument.hpp"

#include "gui/console/templates.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

namespace {

using namespace zeroline;
using testing::HasSubstr;

serial::Fit found()
{
    serial::Fit fit;
    fit.port.baud = 4800;
    fit.language.unit = trace::PressureUnit::mmH2O;
    fit.language.unit_field = 1;
    fit.reads = -400.3;
    fit.unit_is_stated = true;
    fit.rate_hz = 99.6;
    return fit;
}

TEST(FoundInstrument, makes_a_file_that_reads_and_whose_calibration_is_over)
{
    const auto instrument = trace::parse_instrument(nlohmann::json::parse(console::instrument_file_of(found(), "")));
    EXPECT_EQ(instrument.port.baud, 4800);
    EXPECT_EQ(instrument.language.unit, trace::PressureUnit::mmH2O);
    EXPECT_EQ(instrument.language.unit_field, 1);
    EXPECT_EQ(instrument.nominal_hz, 100.0);
    EXPECT_EQ(instrument.calibration.due, "2000-01-01");
    EXPECT_FALSE(instrument.response_ms);
}

TEST(FoundInstrument, keeps_what_is_known_of_the_instrument)
{
    const auto file =
        console::instrument_file_of(found(), std::string(console::template_text(console::Template::instrument)));
    const auto instrument = trace::parse_instrument(nlohmann::json::parse(file));
    EXPECT_EQ(instrument.name, "bench transducer");
    EXPECT_EQ(instrument.nominal_hz, 250.0);
    EXPECT_EQ(instrument.port.baud, 4800);
}

TEST(FoundInstrument, shows_the_number_and_whether_its_unit_is_stated)
{
    auto fit = found();
    EXPECT_EQ(console::reading_of(fit), "-400.300 mmH2O");
    fit.unit_is_stated = false;
    EXPECT_THAT(console::reading_of(fit), HasSubstr("no unit is stated"));
}

} // namespace
