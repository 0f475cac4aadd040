#include "gui/console/published_checks.hpp"

#include "acquisition/serial/languages/checksums.hpp"
#include "acquisition/trace/units.hpp"
#include "analysis/metrology/decision.hpp"
#include "analysis/metrology/uncertainty.hpp"
#include "analysis/signal/statistics.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/signing_key.hpp"

#include <charconv>
#include <cmath>
#include <limits>

namespace zeroline::console {

using metrology::Contribution;
using metrology::Distribution;
using trace::PressureUnit;

namespace {

using Checks = std::vector<PublishedCheck>;
constexpr double kInfinite = std::numeric_limits<double>::infinity();

std::string number(double value)
{
    char text[40];
    const auto end = std::to_chars(text, text + sizeof text, value, std::chars_format::general, 12);
    return {text, end.ptr};
}

std::string bytes(std::string_view hexadecimal)
{
    std::string out;
    for (std::size_t i = 0; i < hexadecimal.size(); i += 2) {
        out += static_cast<char>(std::stoi(std::string(hexadecimal.substr(i, 2)), nullptr, 16));
    }
    return out;
}

std::string hexadecimal(std::string_view raw)
{
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text;
    for (const char c : raw) {
        const auto byte = static_cast<unsigned char>(c);
        text += digits[byte >> 4];
        text += digits[byte & 15];
    }
    return text;
}

Checks units()
{
    const std::string source = "NIST SP 811 (2008), appendix B.8, exact conventional factors";
    const auto to = [&](const char* what, PressureUnit unit, double expected) {
        return numbers_agree(what, source, expected, trace::to_cmH2O(1.0, unit), 1e-11 * expected);
    };
    return {to("1 hPa in cmH2O", PressureUnit::hPa, 100.0 / 98.0665),
            to("1 kPa in cmH2O", PressureUnit::kPa, 10.197162129779),
            to("1 bar in cmH2O", PressureUnit::bar, 1019.716212977928),
            to("1 mmHg in cmH2O", PressureUnit::mmHg, 1.35951),
            to("1 inH2O in cmH2O", PressureUnit::inH2O, 2.54),
            to("1 psi in cmH2O", PressureUnit::psi, 70.306957963916),
            numbers_agree("-40 cmH2O in hPa", source, -39.2266, trace::from_cmH2O(-40.0, PressureUnit::hPa), 1e-12)};
}

/// NIST StRD NumAcc2 to NumAcc4: a first value, then 500 times a pair.
std::vector<double> pairs_about(double first)
{
    std::vector<double> values{first};
    for (int i = 0; i < 500; ++i) {
        values.push_back(first - 0.1);
        values.push_back(first + 0.1);
    }
    return values;
}

Checks statistics()
{
    const std::string source = "NIST Statistical Reference Datasets, univariate, certified values";
    const std::vector<double> small{10000001.0, 10000003.0, 10000002.0};
    Checks checks{numbers_agree("NumAcc1, mean", source, 10000002.0, *signal::mean(small), 0.0),
                  numbers_agree("NumAcc1, standard deviation", source, 1.0, *signal::standard_deviation(small), 0.0),
                  numbers_agree("NumAcc1, autocorrelation", source, -0.5, *signal::autocorrelation(small), 0.0)};
    for (const auto& [name, first, within] :
         {std::tuple("NumAcc2", 1.2, 1e-14), std::tuple("NumAcc3", 1000000.2, 1e-10),
          std::tuple("NumAcc4", 10000000.2, 1e-9)}) {
        const auto values = pairs_about(first);
        const std::string set = name;
        checks.push_back(numbers_agree(set + ", mean", source, first, *signal::mean(values), 1e-14 * first));
        checks.push_back(
            numbers_agree(set + ", standard deviation", source, 0.1, *signal::standard_deviation(values), within));
        checks.push_back(
            numbers_agree(set + ", autocorrelation", source, -0.999, *signal::autocorrelation(values), 1e-8));
    }
    return checks;
}

Checks uncertainty()
{
    const double length_nm = 50'000'623.0;
    const std::vector<Contribution> gauge{{"standard", 25.0, Distribution::normal, 18.0, 1.0},
                                          {"comparison", 9.7, Distribution::normal, 25.6, 1.0},
                                          {"expansion", 0.58e-6, Distribution::normal, 50.0, length_nm * 0.1},
                                          {"temperature", 0.029, Distribution::normal, 2.0, length_nm * 11.5e-6}};
    const auto result = metrology::combine(gauge, 0.99);
    const std::string h1 = "JCGM 100:2008 (GUM), H.1, end gauge";
    const std::string table = "JCGM 100:2008 (GUM), table G.2";
    const std::string ea = "EA-4/02, from memory";
    const auto rectangle = [](double half) {
        return Contribution{"", half, Distribution::rectangular, kInfinite, 1.0};
    };
    const auto normal = [](double u, double sensitivity) {
        return Contribution{"", u, Distribution::normal, kInfinite, sensitivity};
    };
    const auto caliper =
        metrology::combine({normal(0.46, 1.0), normal(1.15, 1.7), rectangle(25.0), rectangle(50.0)}, 0.95);
    return {
        numbers_agree("combined standard uncertainty, nm (printed 32)", h1, 32.0, result.standard_uncertainty, 0.5),
        numbers_agree("effective degrees of freedom (printed 16, cut from 16.7)", h1, 16.7, result.effective_dof, 0.1),
        numbers_agree("expanded uncertainty at 16 degrees of freedom, nm (printed 93)", h1, 93.0,
                      metrology::student_factor(0.99, 16.0) * result.standard_uncertainty, 0.5),
        numbers_agree("t, 95 %, 1 degree of freedom", table, 12.71, metrology::student_factor(0.95, 1.0), 0.005),
        numbers_agree("t, 95 %, 10 degrees of freedom", table, 2.23, metrology::student_factor(0.95, 10.0), 0.005),
        numbers_agree("t, 95.45 %, 5 degrees of freedom", table, 2.65,
                      metrology::student_factor(metrology::kCoverage, 5.0), 0.005),
        numbers_agree("t, 99 %, 20 degrees of freedom", table, 2.85, metrology::student_factor(0.99, 20.0), 0.006),
        numbers_agree("S9, factor of one rectangle, 95 % (printed 1.65)", ea, 1.65,
                      metrology::combine({rectangle(0.05)}, 0.95).coverage_factor, 0.005),
        numbers_agree("S10, caliper, coverage factor (printed 1.83)", ea, 1.83, caliper.coverage_factor, 0.015),
        numbers_agree("S10, caliper, expanded uncertainty, um (printed 60)", ea, 60.0, caliper.expanded_uncertainty,
                      1.0)};
}

Checks decision()
{
    const std::string jcgm = "JCGM 106:2012, 8.3.3, from memory (printed 0.9995)";
    const std::string ilac = "ILAC-G8:09/2019, 4.2";
    const metrology::Limits limits{38.0, 42.0};
    Checks checks{numbers_agree("107 km/h against 100: probability beyond the limit", jcgm, 0.9995,
                                metrology::probability_outside(107.0, 2.14, kInfinite, {std::nullopt, 100.0}), 5e-5),
                  numbers_agree("risk at the limit", ilac + ", 50 %", 0.5,
                                metrology::probability_outside(42.0, 0.3, kInfinite, {std::nullopt, 42.0}), 1e-12),
                  numbers_agree("risk at a guard band of U", ilac + ", normal tail", 0.02275013,
                                metrology::probability_outside(41.4, 0.3, kInfinite, {std::nullopt, 42.0}), 5e-9)};
    struct Row {
        double value;
        const char *simple, *guarded;
    };
    for (const auto& row :
         {Row{41.2, "pass", "pass"}, Row{41.6, "pass", "conditional-pass"}, Row{42.0, "pass", "conditional-pass"},
          Row{42.3, "fail", "conditional-fail"}, Row{42.7, "fail", "fail"}}) {
        const auto verdict = [&](metrology::Rule rule) {
            return std::string(metrology::word_of(metrology::decide(row.value, 0.6, limits, rule)));
        };
        checks.push_back(texts_agree(number(row.value) + " in 38 to 42, U 0.6, simple acceptance", ilac + ".1",
                                     row.simple, verdict(metrology::Rule::simple)));
        checks.push_back(texts_agree(number(row.value) + " in 38 to 42, U 0.6, guarded acceptance", ilac + ".3",
                                     row.guarded, verdict(metrology::Rule::guarded)));
    }
    return checks;
}

Checks protocol()
{
    const std::string source = "Modbus over serial line, specification and implementation guide V1.02, 6.2.2";
    Checks checks;
    struct Frame {
        const char *body, *crc;
    };
    for (const auto& frame : {Frame{"0207", "4112"}, Frame{"1103006b0003", "7687"}, Frame{"110306ae4156524340", "49ad"},
                              Frame{"110400080001", "b298"}, Frame{"110402000a", "f8f4"}}) {
        const auto crc = serial::crc16_modbus(bytes(frame.body));
        const char wire[] = {static_cast<char>(crc & 0xff), static_cast<char>(crc >> 8)};
        checks.push_back(texts_agree(std::string("check bytes of ") + frame.body, source, frame.crc,
                                     hexadecimal({wire, sizeof wire})));
    }
    return checks;
}

Checks hashes()
{
    const std::string source = "FIPS 180-4, SHA-256 examples, from memory";
    return {texts_agree("SHA-256 of \"abc\"", source,
                        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", records::sha256("abc")),
            texts_agree("SHA-256 of 56 bytes", source,
                        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
                        records::sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")),
            texts_agree("SHA-256 of a million times \"a\"", source,
                        "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0",
                        records::sha256(std::string(1'000'000, 'a')))};
}

Checks signatures()
{
    const std::string source = "RFC 8032, 7.1";
    struct Vector {
        const char *name, *secret, *public_key, *message, *signature;
    };
    constexpr Vector vectors[] = {{"TEST 1", "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
                                   "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a", "",
                                   "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61"
                                   "e39701cf9b46bd25bf5f0595bbe246"
                                   "55141438e7a100b"},
                                  {"TEST 2", "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
                                   "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c", "72",
                                   "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458"
                                   "f3613d0f11d8c387b2eaeb4302aeeb"
                                   "00d291612bb0c00"}};
    Checks checks;
    for (const auto& vector : vectors) {
        const std::string name = vector.name;
        const auto key = records::SigningKey::from_secret(bytes(vector.secret));
        const auto message = bytes(vector.message);
        checks.push_back(texts_agree(name + ", public key", source, vector.public_key, hexadecimal(key.public_key())));
        checks.push_back(texts_agree(name + ", signature", source, vector.signature, hexadecimal(key.sign(message))));
        const bool holds = records::verifies(key.public_key(), message, bytes(vector.signature));
        const bool other = records::verifies(key.public_key(), message + "x", bytes(vector.signature));
        checks.push_back(texts_agree(name + ", holds for its message and for no other", source, "yes, no",
                                     std::string(holds ? "yes" : "no") + (other ? ", yes" : ", no")));
    }
    return checks;
}

} // namespace

PublishedCheck numbers_agree(std::string what, std::string source, double expected, double got, double within)
{
    return {{},
            std::move(what),
            std::move(source),
            number(expected),
            number(got),
            within > 0.0 ? number(within) : std::string(),
            std::abs(got - expected) <= within};
}

PublishedCheck texts_agree(std::string what, std::string source, std::string expected, std::string got)
{
    const bool agrees = expected == got;
    return {{}, std::move(what), std::move(source), std::move(expected), std::move(got), {}, agrees};
}

std::vector<PublishedCheck> published_checks()
{
    Checks all;
    const auto add = [&](const char* group, Checks checks) {
        for (auto& check : checks) {
            check.group = group;
            all.push_back(std::move(check));
        }
    };
    add("units", units());
    add("statistics", statistics());
    add("uncertainty", uncertainty());
    add("decision", decision());
    add("waveform", waveform_checks());
    add("protocol", protocol());
    add("hashes", hashes());
    add("signature", signatures());
    return all;
}

} // namespace zeroline::console
