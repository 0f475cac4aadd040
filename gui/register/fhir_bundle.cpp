#include "gui/register/fhir_bundle.hpp"

#include "acquisition/trace/visible_text.hpp"

#include <QUuid>

#include <set>

namespace zeroline::unit_register {

namespace {

// Elements as the pages Bundle, Device, DiagnosticReport and Observation of FHIR R4 (4.0.1) have them; UCUM, tables 4
// (s, Hz) and 21 (m[H2O]).

/// A text as FHIR takes it: no control characters.
Rows string_of(const Rows& value) { return trace::visible_on_one_line(value.get<std::string>()); }

bool has_text(const Rows& value) { return value.is_string() && !value.get_ref<const std::string&>().empty(); }

/// An element that would be empty is left out: FHIR has no empty ones.
void put(Rows& onto, const char* element, const Rows& text)
{
    if (has_text(text)) {
        onto[element] = string_of(text);
    }
}

/// The same text has the same identifier, whenever and wherever it is exported.
std::string urn(const std::string& kind, const std::string& text)
{
    static const QUuid ours = QUuid::createUuidV5(QUuid(), QByteArray("urn:zeroline:register"));
    return QUuid::createUuidV5(ours, QByteArray::fromStdString(kind + '\n' + text))
        .toString(QUuid::WithoutBraces)
        .toStdString();
}

Rows reference(const std::string& id) { return {{"reference", "urn:uuid:" + id}}; }
Rows concept_of(const std::string& text) { return {{"text", trace::visible_on_one_line(text)}}; }

Rows ucum(const Rows& value, const std::string& unit)
{
    Rows quantity{{"value", value}, {"unit", unit}};
    const std::string code = unit == "cmH2O" ? "cm[H2O]" : unit == "s" || unit == "Hz" ? unit : std::string();
    if (!code.empty()) {
        quantity["system"] = "http://unitsofmeasure.org";
        quantity["code"] = code;
    }
    return quantity;
}

/// The resources of a bundle, each once.
class Resources {
public:
    std::string add(const std::string& kind, const std::string& text, Rows resource)
    {
        auto id = urn(kind, text);
        if (seen_.insert(id).second) {
            Rows whole{{"resourceType", kind}, {"id", id}};
            whole.update(resource);
            entries_.push_back(Rows{{"fullUrl", "urn:uuid:" + id}, {"resource", std::move(whole)}});
        }
        return id;
    }
    [[nodiscard]] Rows take() { return std::move(entries_); }

private:
    std::set<std::string> seen_;
    Rows entries_ = Rows::array();
};

std::string add_unit(Resources& all, const Rows& row)
{
    Rows unit{{"identifier", Rows::array({Rows{{"system", "urn:zeroline:asset"}, {"value", string_of(row["asset"])}}})},
              {"type", concept_of("mechanical insufflation-exsufflation unit")}};
    put(unit, "serialNumber", row["serial"]);
    put(unit, "modelNumber", row["model"]);
    return all.add("Device", "unit\n" + row["asset"].get<std::string>(), unit);
}

std::string add_instrument(Resources& all, const Rows& row)
{
    if (!has_text(row["instrument_name"])) {
        return {};
    }
    Rows instrument{{"type", concept_of("pressure transducer")},
                    {"deviceName",
                     Rows::array({Rows{{"name", string_of(row["instrument_name"])}, {"type", "user-friendly-name"}}})}};
    put(instrument, "serialNumber", row["instrument_serial"]);
    return all.add("Device",
                   "instrument\n" + row["instrument_name"].get<std::string>() + '\n' +
                       (has_text(row["instrument_serial"]) ? row["instrument_serial"].get<std::string>() : ""),
                   instrument);
}

Rows limits_of(const Rows& row, const std::string& unit)
{
    Rows range = Rows::object();
    for (const auto& [element, column] : {std::pair{"low", "lower_limit"}, std::pair{"high", "upper_limit"}}) {
        if (!row[column].is_null()) {
            range[element] = ucum(row[column], unit);
        }
    }
    return range;
}

void put_value(Rows& observation, const Rows& row, const std::string& unit)
{
    if (row["mean"].is_null()) {
        observation["dataAbsentReason"] = concept_of("not measured");
        return;
    }
    observation["valueQuantity"] = ucum(row["mean"], unit);
    if (!row["mean_uncertainty"].is_null()) {
        observation["component"] = Rows::array({Rows{{"code", concept_of("expanded uncertainty, coverage 95 %")},
                                                     {"valueQuantity", ucum(row["mean_uncertainty"], unit)}}});
    }
}

std::string figure_name(const Rows& row)
{
    const auto preset = row["preset"].get<std::string>();
    return row["measurand"].get<std::string>() + (preset.empty() ? "" : ", preset " + preset) + ", against " +
           row["compared_with"].get<std::string>();
}

std::string add_figure(Resources& all, const Rows& row, const Rows& subject, const std::string& instrument)
{
    const auto unit = row["unit"].get<std::string>();
    Rows observation{
        {"status", "final"},
        {"code",
         {{"coding", Rows::array({Rows{{"system", "urn:zeroline:measurand"}, {"code", row["measurand"]}}})},
          {"text", trace::visible_on_one_line(figure_name(row))}}},
        {"subject", subject},
        {"effectiveDateTime", row["began_utc"]}};
    put_value(observation, row, unit);
    observation["interpretation"] = Rows::array({concept_of(row["figure_verdict"].get<std::string>())});
    if (!instrument.empty()) {
        observation["device"] = reference(instrument);
    }
    if (auto limits = limits_of(row, unit); !limits.empty()) {
        observation["referenceRange"] = Rows::array({std::move(limits)});
    }
    return all.add("Observation", row["record_number"].get<std::string>() + '\n' + figure_name(row), observation);
}

/// What was simulated is marked as test data, with the code that FHIR has for it.
Rows report_of(const Rows& row, const Rows& subject)
{
    const auto origin = row["origin"].get<std::string>();
    Rows report = Rows::object();
    if (origin == "simulated") {
        report["meta"] = {{"tag", Rows::array({Rows{{"system", "http://terminology.hl7.org/CodeSystem/v3-ActReason"},
                                                    {"code", "HTEST"}}})}};
    }
    report["identifier"] =
        Rows::array({Rows{{"system", "urn:zeroline:record"}, {"value", string_of(row["record_number"])}}});
    report["status"] = "final";
    report["code"] = concept_of("bench verification of a mechanical insufflation-exsufflation unit");
    report["subject"] = subject;
    report["effectiveDateTime"] = row["began_utc"];
    report["issued"] = row["signed"];
    report["performer"] = Rows::array({Rows{{"display", string_of(row["signer"])}}});
    report["result"] = Rows::array();
    report["conclusion"] = row["verdict"].get<std::string>() + (origin == "captured-here" ? "" : " (" + origin + ")");
    return report;
}

} // namespace

Rows fhir_bundle(const Rows& rows, const std::string& now)
{
    Resources all;
    for (std::size_t i = 0; i < rows.size();) {
        const auto& first = rows[i];
        const auto subject = reference(add_unit(all, first));
        const auto instrument = add_instrument(all, first);
        auto report = report_of(first, subject);
        for (; i < rows.size() && rows[i]["record_number"] == first["record_number"]; ++i) {
            if (!rows[i]["measurand"].is_null()) {
                report["result"].push_back(reference(add_figure(all, rows[i], subject, instrument)));
            }
        }
        if (report["result"].empty()) {
            report.erase("result");
        }
        all.add("DiagnosticReport", first["record_number"].get<std::string>(), std::move(report));
    }
    auto entries = all.take();
    Rows bundle{{"resourceType", "Bundle"}, {"type", "collection"}, {"timestamp", now}};
    if (!entries.empty()) {
        bundle["entry"] = std::move(entries);
    }
    return bundle;
}

} // namespace zeroline::unit_register
