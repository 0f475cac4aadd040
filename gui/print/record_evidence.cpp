#include "gui/print/record_parts.hpp"

#include <algorithm>
#include <set>

namespace zeroline::print {

namespace {

using nlohmann::json;

const Style kFinePrint{.size_pt = 6.2, .colour = QColor(0x30, 0x30, 0x30)};

QString with_unit(const QString& figure, const char* unit) { return figure + " " + unit; }

Facts instrument_facts(const PrintedRecord& record, const Numerals& numerals)
{
    if (!record.at("/instrument").is_object()) {
        return {{"instrument", "no instrument file"}};
    }
    const auto unit = record.text("/instrument/unit");
    const auto low = numerals.signed_plain(record.figure("/instrument/calibrated_low"));
    const auto high = numerals.signed_plain(record.figure("/instrument/calibrated_high"));
    return {{"instrument", record.text("/instrument/name") + ", serial " + record.text("/instrument/serial")},
            {"certificate", record.text("/instrument/certificate") + " of " + record.text("/instrument/calibrated_on")},
            {"calibration due", record.text("/instrument/calibration_due")},
            {"calibrated", low + " to " + high + " " + unit + ", U " +
                               numerals.plain(record.figure("/instrument/expanded_uncertainty")) + " " + unit + ", k " +
                               numerals.plain(record.figure("/instrument/coverage_factor"))}};
}

Facts zero_facts(const PrintedRecord& record, const Numerals& numerals)
{
    const auto level = [&](const char* key) { return numerals.signed_fixed(record.figure(key), 2); };
    return {{"zero, port open", "before " + level("/zero/before") + ", after " + level("/zero/after") + ", drift " +
                                    level("/zero/drift") + " cmH2O"},
            {"noise at zero", with_unit(numerals.fixed(record.figure("/zero/noise"), 3), "cmH2O")}};
}

Facts sampling_facts(const PrintedRecord& record, const Numerals& numerals)
{
    const auto error = record.figure("/sampling/rate_error_ppm");
    return {{"sampling", numerals.fixed(record.figure("/sampling/rate_hz"), 2) + " Hz" +
                             (error ? ", clock off by " + numerals.signed_fixed(error, 0) + " ppm" : QString())},
            {"readings lost", numerals.plain(record.figure("/sampling/lost"))}};
}

QString environment_words(const PrintedRecord& record, const Numerals& numerals)
{
    QStringList words;
    const auto add = [&](const char* key, const char* unit) {
        if (const auto value = record.figure(std::string("/run/environment/") + key)) {
            words << with_unit(numerals.plain(value), unit);
        }
    };
    add("temperature_C", "\u00B0C");
    add("pressure_hPa", "hPa");
    add("humidity_percent", "% humidity");
    if (const auto on_s = record.figure("/run/environment/instrument_on_s"); on_s.value_or(0.0) > 0.0) {
        words << "instrument on for " + with_unit(numerals.plain(*on_s / 60.0), "min") + " before";
    }
    return or_not_given(words.join(", "));
}

QString hose_words(const PrintedRecord& record, const Numerals& numerals)
{
    const auto kind = record.text("/run/hose/kind");
    const auto length = record.figure("/run/hose/length_m");
    const auto bore = record.figure("/run/hose/bore_mm");
    return or_not_given(kind + (length ? ", " + numerals.plain(length) + " m" : QString()) +
                        (bore ? ", bore " + numerals.plain(bore) + " mm" : QString()));
}

QString method_words(const PrintedRecord& record)
{
    const auto name = record.text("/issue/method/name");
    return name.isEmpty() ? "docs/method.md of version " + record.text("/software/version")
                          : name + ", version " + record.text("/issue/method/version");
}

QString settings_words(const json& settings, const Numerals& numerals)
{
    QStringList words;
    for (const auto* phase : {"insufflation", "exsufflation", "pause"}) {
        const auto it = settings.find(phase);
        if (it == settings.end() || !it->is_object()) {
            continue;
        }
        QStringList figures;
        if (it->contains("pressure")) {
            figures << numerals.signed_plain((*it)["pressure"].get<double>()) + " cmH2O";
        }
        if (it->contains("duration")) {
            figures << numerals.plain((*it)["duration"].get<double>()) + " s";
        }
        words << QString(phase) + " " + figures.join(", ");
    }
    for (const auto* key : {"flow", "trigger", "oscillation", "mode", "alarms"}) {
        if (const auto it = settings.find(key); it != settings.end()) {
            const auto text = it->is_string() ? it->get<std::string>() : it->dump();
            words << QString(key) + " " + QString::fromStdString(text);
        }
    }
    return words.join("; ");
}

/// Preset by preset, as found before the first change and as left; one column where that is the same throughout.
PageBlocks settings_pieces(const PrintedRecord& record, const Numerals& numerals)
{
    const auto& found = record.at("/run/settings_found");
    const auto& left = record.at("/run/settings_left");
    const auto words = [&](const json& settings, const std::string& name) {
        return settings.is_object() && settings.contains(name) ? settings_words(settings[name], numerals)
                                                               : QString("not written down");
    };
    std::set<std::string> names;
    for (const auto* settings : {&found, &left}) {
        for (const auto& entry : settings->items()) {
            names.insert(entry.key());
        }
    }
    if (names.empty()) {
        return {};
    }
    Table content{
        {{"preset", 18.0}, {"settings found before the first change", 86.0}, {"settings left", 86.0}}, {}, 6.6};
    if (found == left) {
        content.columns = {{"preset", 18.0}, {"settings found before the first change, and left the same", 172.0}};
    }
    for (const auto& name : names) {
        std::vector<Cell> row{{.text = QString::fromStdString(name)}, {.text = words(found, name)}};
        if (found != left) {
            row.push_back({.text = words(left, name)});
        }
        content.rows.push_back(std::move(row));
    }
    PageBlocks blocks{whole_table(content, 0.8)};
    for (const auto& [code, sentence] :
         {std::pair{"found-as-prescribed", "Settings found: stated as prescribed, not copied out."},
          {"left-as-prescribed", "Settings left: stated as prescribed, not copied out."}}) {
        const auto& said = record.at("/run/confirmed");
        if (said.is_array() && std::find(said.begin(), said.end(), json(code)) != said.end()) {
            blocks.push_back(paragraph(sentence, {.size_pt = 6.6}, 0.6));
        }
    }
    return blocks;
}

QString restored_words(const PrintedRecord& record)
{
    const auto& restored = record.at("/run/restored");
    if (!restored.is_boolean()) {
        return "not stated";
    }
    const bool held = record.result.out_of_use();
    if (!restored.get<bool>()) {
        return QString::fromUtf8("\u2717 ") + (held ? "not given back: to be kept out of use" : "not confirmed");
    }
    if (held) {
        return QString::fromUtf8("\u2717 confirmed as given back, but it is to be kept out of use");
    }
    return record.left_otherwise()
               ? QString::fromUtf8("\u2717 confirmed, but settings were left neither as found nor as prescribed")
               : QString::fromUtf8("\u2713 confirmed: the unit was given back as it must be");
}

PageBlock checklist_piece(const json& list)
{
    Table content{{{"checklist", 70.0}, {"outcome", 28.0}, {"remark", 88.0}}, {}, 6.6};
    for (const auto& item : list) {
        const auto outcome = QString::fromStdString(item.value("outcome", ""));
        const auto sign = outcome == "ok"       ? QString::fromUtf8("\u2713 ")
                          : outcome == "not-ok" ? QString::fromUtf8("\u2717 ")
                                                : QString::fromUtf8("\u2013 ");
        content.rows.push_back({{.text = QString::fromStdString(item.value("item", ""))},
                                {.text = sign + with_blanks(outcome), .bold = outcome == "not-ok"},
                                {.text = QString::fromStdString(item.value("remark", ""))}});
    }
    return whole_table(content, 0.8);
}

PageBlock signature_table(const PrintedRecord& record)
{
    constexpr int kShownOfKey = 16;
    Table content{{{"signed by", 40.0}, {"role", 34.0}, {"meaning", 44.0}, {"time", 36.0}, {"key", 32.0}}, {}, 7.0};
    for (const auto& signature : record.signatures) {
        content.rows.push_back({{.text = QString::fromStdString(signature.name), .bold = true},
                                {.text = QString::fromStdString(signature.role)},
                                {.text = QString::fromStdString(signature.meaning)},
                                {.text = moment_text(QString::fromStdString(signature.time))},
                                {.text = QString::fromStdString(signature.key).left(kShownOfKey)}});
    }
    return whole_table(content);
}

/// A line to write on, with what belongs there under it.
PageBlock lines_to_sign_on()
{
    constexpr double kRoom = 11.0;
    return drawing(kRoom, [](PagePainter& painter, const QRectF& box) {
        const std::vector<std::pair<double, const char*>> fields{{0.30, "name and role"},
                                                                 {0.24, "meaning (checked, reviewed)"},
                                                                 {0.18, "day and time"},
                                                                 {0.28, "signature"}};
        double x = box.left();
        const double y = box.bottom() - 3.2;
        for (const auto& [share, words] : fields) {
            const double width = share * box.width();
            painter.line({x, y}, {x + width - 3.0, y}, {0.15, Qt::black});
            painter.text({x, y + 0.4, width, 0}, words, kFinePrint);
            x += width;
        }
    });
}

} // namespace

PageBlock circumstances_part(const PrintedRecord& record, const Numerals& numerals, int columns)
{
    Facts all = instrument_facts(record, numerals);
    for (const auto& more : {zero_facts(record, numerals), sampling_facts(record, numerals)}) {
        all.insert(all.end(), more.begin(), more.end());
    }
    all.emplace_back("environment", environment_words(record, numerals));
    all.emplace_back("hose", hose_words(record, numerals));
    all.emplace_back("method", method_words(record));
    all.emplace_back("software", record.text("/software/version") + ", " + record.text("/software/build"));
    return facts(all, columns, 20.0);
}

PageBlocks hand_back_part(const PrintedRecord& record, const Numerals& numerals)
{
    auto confirmed = record.texts("/run/confirmed");
    for (auto& word : confirmed) {
        word = with_blanks(word);
    }
    const Facts pairs{{"confirmed", confirmed.isEmpty() ? "nothing" : confirmed.join(", ")},
                      {"hand-back", restored_words(record)}};
    PageBlocks blocks{heading("Confirmations, checklist, hand-back"), facts(pairs, 2, 16.0)};
    for (auto& block : settings_pieces(record, numerals)) {
        blocks.back().keeps_next = true;
        blocks.push_back(std::move(block));
    }
    if (const auto& list = record.at("/run/checklist"); list.is_array() && !list.empty()) {
        blocks.push_back(checklist_piece(list));
    }
    return blocks;
}

PageBlocks signatures_part(const PrintedRecord& record)
{
    PageBlocks blocks{heading("Signatures")};
    blocks.push_back(record.signatures.empty() ? lines_to_sign_on() : signature_table(record));
    blocks.back().keeps_next = true;
    blocks.push_back(paragraph(
        "A signature is sealed with this bench's key, the name as typed; it claims no accreditation. Made with test "
        "equipment, not a medical device: no diagnosis, no monitoring. The prescriber sets the therapy, licensed staff "
        "apply it; the manufacturer's service documentation and local rules come before this record. What was on when "
        "found and is off now: turn on and read back. Anyone can recompute this record from the trace attached here.",
        kFinePrint, 1.0));
    return blocks;
}

} // namespace zeroline::print
