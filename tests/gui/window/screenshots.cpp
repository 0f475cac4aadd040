// Pictures of every page of the window, to be looked at: cut words, spacing, contrast.
//
//   zeroline_screenshots FOLDER             every variant, one process each
//   zeroline_screenshots FOLDER VARIANT     one variant: plain, dark, german, large, ladder, ...
//
// Where a run does not come to its end, the step it stands at is named.

#include "tests/gui/window/own_settings.hpp"

#include "gui/register/delivery.hpp"
#include "gui/register/unit_register.hpp"
#include "gui/session/run_files.hpp"
#include "gui/window/bench_place.hpp"
#include "gui/window/language.hpp"
#include "gui/window/main_window.hpp"
#include "gui/window/result_page.hpp"
#include "gui/window/run_page.hpp"
#include "gui/window/skip_dialog.hpp"
#include "gui/window/start_page.hpp"

#include <QApplication>
#include <QComboBox>
#include <QDate>
#include <QDir>
#include <QElapsedTimer>
#include <QLabel>
#include <QLineEdit>
#include <QProcess>
#include <QPushButton>
#include <QScrollArea>
#include <QSettings>
#include <QStyleFactory>
#include <QTableView>
#include <QTemporaryDir>
#include <QtTest/QTest>

#include <algorithm>
#include <cstdio>
#include <functional>
#include <memory>
#include <string_view>
#include <vector>

namespace zeroline::window {
namespace {

struct Variant {
    const char* name;
    const char* language = "en";
    const char* fault = "";
    bool dark = false;
    double font_scale = 1.0;
    QSize size{1200, 800};
    const char* procedure = ""; ///< by name; "own" asks for a value and goes up a ladder
};

const std::vector<Variant> kVariants = {
    {"plain"},
    {"dark", "en", "", true},
    {"contrast", "en", "", false, 1.0, {1024, 700}},
    {"small", "en", "", false, 1.0, {1024, 700}},
    {"german", "de", "", false, 1.0, {1024, 700}},
    {"large", "en", "", false, 2.0, {1024, 700}},
    {"german-large", "de", "", false, 2.0, {1024, 700}},
    {"fault", "en", "low-exsufflation", false, 1.0, {1024, 700}},
    {"critical", "en", "breathing", false, 1.0, {1024, 700}},
    {"german-fault", "de", "low-exsufflation", false, 1.0, {1200, 800}},
    {"home-visit", "en", "", false, 1.0, {1200, 800}, "home-visit"},
    {"ladder", "en", "", false, 1.0, {1200, 800}, "own"},
    {"german-ladder-dark", "de", "", true, 1.0, {1024, 700}, "own"},
    // The register alone, without a run before it.
    {"register", "en", "", false, 1.0, {1200, 800}},
    {"german-register", "de", "", true, 1.0, {1024, 700}},
};

QPalette dark_palette()
{
    QPalette palette(QColor(0x2B, 0x2B, 0x2B));
    palette.setColor(QPalette::Base, QColor(0x1E, 0x1E, 0x1E));
    palette.setColor(QPalette::AlternateBase, QColor(0x2B, 0x2B, 0x2B));
    palette.setColor(QPalette::ToolTipBase, QColor(0x2B, 0x2B, 0x2B));
    palette.setColor(QPalette::ToolTipText, Qt::white);
    palette.setColor(QPalette::PlaceholderText, QColor(0xA0, 0xA0, 0xA0));
    return palette;
}

class Album {
public:
    Album(QString folder, const Variant& variant) : folder_(std::move(folder)), variant_(variant)
    {
        window_.resize(variant.size);
        window_.show();
        window_.activateWindow();
        field("records")->setText(scratch_.filePath(QStringLiteral("records")));
        field("operator")->setText(QStringLiteral("operator 3"));
        field("place")->setText(QStringLiteral("workshop"));
        field("organisation")->setText(QStringLiteral("Invented Workshop"));
        field("address")->setText(QStringLiteral("1 Example Street"));
        window_.bench().start_page().choose_order(short_order());
        window_.bench().start_page().choose_port(session::PortsModel::kVirtualBench);
        const auto procedure = QString::fromLatin1(variant.procedure);
        if (!procedure.isEmpty())
            window_.bench().start_page().choose_procedure(procedure == "own" ? own_procedure() : procedure);
        if (*variant.fault != '\0') {
            auto* faults = window_.findChild<QComboBox*>(QStringLiteral("fault"));
            faults->setCurrentIndex(faults->findData(QLatin1String(variant.fault)));
        }
    }

    bool take_all()
    {
        if (QLatin1String(variant_.name).endsWith(QLatin1String("register")))
            return in_the_register();
        shoot("01-start");
        press("unfoldChecks");
        auto* checks = window_.findChild<QWidget*>(QStringLiteral("startTemperature"));
        window_.findChild<QScrollArea*>(QStringLiteral("startScroll"))->ensureWidgetVisible(checks, 0, 300);
        shoot("01-start-checklist");
        press("unfoldChecks");
        forms();
        press("begin");
        if (!running("Order")) {
            std::fprintf(stderr, "%s\n", qPrintable(window_.findChild<QLabel*>(QStringLiteral("trouble"))->text()));
            return false;
        }
        QTest::qWait(300);
        shoot("04-order");
        for (int i = 0; i < 20 && !at("Zero"); ++i) {
            QTest::qWait(400);
            answer();
            QTest::qWait(100);
        }
        if (!at("Zero"))
            return false;
        QTest::qWait(2500);
        shoot("05-zero");
        press("skip");
        QTest::qWait(200);
        auto* dialog = window_.findChild<SkipDialog*>();
        shoot("05-skip", dialog);
        dialog->reject();
        return follow_the_run() && results() && in_the_register();
    }

    /// The sentence that the run shows.
    [[nodiscard]] QString stands_at() const { return window_.findChild<QLabel*>(QStringLiteral("sentence"))->text(); }

private:
    /// By Space; a value is typed.
    void answer()
    {
        if (!window_.findChild<QWidget*>(QStringLiteral("questionPage"))->isVisible()) {
            QTest::keyClick(QApplication::focusWidget(), Qt::Key_Space);
            return;
        }
        const bool value = field("stepValue")->isVisible();
        if (value)
            field("stepValue")->setText(QStringLiteral("0.25"));
        shoot(value ? "04-value" : "04-question");
        QTest::keyClick(QApplication::focusWidget(), value ? Qt::Key_Return : Qt::Key_Space);
    }

    void forms()
    {
        press("orderEdit");
        QTest::qWait(200);
        shoot("02-order-form");
        press("orderCancel");
        press("instrumentEdit");
        QTest::qWait(200);
        shoot("03-instrument-form");
        press("instrumentCancel");
        QTest::qWait(200);
    }

    bool follow_the_run()
    {
        const auto stop = [&] { return window_.findChild<QWidget*>(QStringLiteral("stopPage"))->isVisible(); };
        for (const auto& [place, wait_ms, name] : {std::tuple{"Block", 1200, "06-block"},
                                                   {"Manual", 6000, "07-manual"},
                                                   {"Automatic", 14000, "08-automatic"}}) {
            if (!until([&] { return at(place) || stop(); }, 60))
                return false;
            QTest::qWait(wait_ms);
            shoot(name);
            if (place == std::string_view("Automatic") && !stop()) {
                window_.findChild<RunPage*>()->take_asset(QStringLiteral("RC-9999"));
                QTest::qWait(100);
                shoot("08-scan-question");
                press("scanIsTheUnit");
                press("checks");
                QTest::qWait(200);
                shoot("08-checklist");
                press("checks");
            }
        }
        if (variant_.procedure == std::string_view("own") && !follow_the_ladder())
            return false;
        if (!until([&] { return at("Zero again") || stop(); }, 180))
            return false;
        if (stop()) {
            shoot("09-stop");
            press("understood");
        } else {
            shoot("09-zero-again");
            QTest::keyClick(QApplication::focusWidget(), Qt::Key_Space);
        }
        return until([&] { return at("Hand back"); }, 40);
    }

    /// Its settings, a rest among them, and the word that the unit is dialled back.
    bool follow_the_ladder()
    {
        const auto deed = [&] { return window_.bench().session()->view().deed; };
        if (!until([&] { return at("Ladder"); }, 90))
            return false;
        QTest::qWait(9000);
        shoot("08-ladder");
        if (!until([&] { return deed() == session::Deed::dial_back; }, 300))
            return false;
        QTest::qWait(200);
        shoot("08-ladder-back");
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Space);
        return true;
    }

    bool results()
    {
        QTest::qWait(300);
        shoot("10-hand-back");
        press("handedBack");
        auto& result = window_.bench().result_page();
        if (!until([&] { return result.isVisible(); }, 20))
            return false;
        QTest::qWait(300);
        shoot("11-result");
        scroll_to("result");
        shoot("12-result-numbers");
        press("details");
        QTest::qWait(200);
        scroll_to("result");
        shoot("13-result-details");
        press("details");
        if (variant_.procedure == std::string_view("own")) {
            scroll_to("ladderChart");
            shoot("13-result-ladder");
        }
        scroll_to("wholeTrace");
        shoot("14-result-trace");
        scroll_to("again");
        shoot("15-result-end");
        press("next");
        QTest::qWait(100);
        shoot("16-leaving");
        press("staySigned");
        field("signer")->setText(QStringLiteral("operator 3"));
        field("role")->setText(QStringLiteral("technician"));
        press("save");
        QTest::qWait(200);
        scroll_to("verdict");
        shoot("17-saved");
        return result.saved();
    }

    /// Visits of earlier years, so that there is something to see.
    static void register_visits()
    {
        const auto units = unit_register::UnitRegister::open(unit_register::register_file(std::nullopt));
        for (int year = 2020; year < 2026; ++year) {
            auto entry = unit_register::read_entry(ZEROLINE_SOURCE_DIR "/tests/gui/records/method_1/pass");
            const auto day = std::to_string(year) + "-03-0" + std::to_string(1 + year % 7);
            entry.verification["record_number"] = day;
            entry.verification["day"] = day;
            entry.verification["began_utc"] = day + "T09:00:00Z";
            entry.verification["origin"] = "captured-here";
            entry.verification["next_due"] = std::to_string(year + 1) + day.substr(4);
            for (auto& figure : entry.figures) {
                figure["record_number"] = day;
                if (figure["mean"].is_number())
                    figure["mean"] = figure["mean"].get<double>() + 0.1 * (year - 2020) + (year % 2 == 0 ? 0.05 : 0.0);
            }
            for (auto& check : entry.instrument_checks) {
                check["day"] = std::to_string(year) + "-01-10";
                check["certificate"] = "calibration of " + std::to_string(year);
                check["next_due"] = std::to_string(year + 1) + "-01-10";
                check["indicated"] = check["reference"].get<double>() * (1.0 + 0.002 * (year - 2020));
                check["allowed_drift"] = 0.6;
            }
            static_cast<void>(units.add(entry, records::SigningKey::make()));
        }
    }
    /// Other units of this year, all a tenth above what was set, by the one instrument.
    static void register_units_off_together()
    {
        const auto units = unit_register::UnitRegister::open(unit_register::register_file(std::nullopt));
        for (const std::string asset : {"RC-0201", "RC-0202", "RC-0203"}) {
            auto entry = unit_register::read_entry(ZEROLINE_SOURCE_DIR "/tests/gui/records/method_1/pass");
            entry.unit["asset"] = asset;
            entry.verification.update({{"record_number", asset},
                                       {"asset", asset},
                                       {"day", QDate::currentDate().toString(Qt::ISODate).toStdString()},
                                       {"origin", "captured-here"}});
            for (auto& figure : entry.figures) {
                figure["record_number"] = asset;
                if (figure["mean"].is_number() && figure["target"].is_number())
                    figure["mean"] = 1.1 * figure["target"].get<double>();
            }
            static_cast<void>(units.add(entry, records::SigningKey::make()));
        }
    }

    bool in_the_register()
    {
        register_visits();
        register_units_off_together();
        press("toRegister");
        auto* list = window_.findChild<QTableView*>(QStringLiteral("registerList"));
        if (!until([&] { return list->model()->rowCount() > 0; }, 20))
            return false;
        QTest::qWait(200);
        shoot("18-register");
        list->selectRow(0);
        QTest::qWait(3000);
        shoot("19-register-unit");
        auto* drift = window_.findChild<QLabel*>(QStringLiteral("drift"));
        auto* scroll = window_.findChild<QScrollArea*>(QStringLiteral("unitScroll"));
        scroll->ensureWidgetVisible(drift, 0, 20);
        QTest::qWait(150);
        shoot("20-register-trend");
        scroll->ensureWidgetVisible(window_.findChild<QWidget*>(QStringLiteral("visitCycles")), 0, 20);
        QTest::qWait(150);
        shoot("21-register-cycles");
        press("listInstruments");
        if (!until([&] { return list->model()->rowCount() > 0; }, 20))
            return false;
        list->selectRow(0);
        QTest::qWait(1500);
        shoot("22-register-instrument");
        auto* trend = window_.findChild<QLabel*>(QStringLiteral("instrumentDrift"));
        window_.findChild<QScrollArea*>(QStringLiteral("instrumentScroll"))->ensureWidgetVisible(trend, 0, 20);
        QTest::qWait(150);
        shoot("23-register-instrument-drift");
        return true;
    }

    void scroll_to(const char* name)
    {
        auto* shown = window_.findChild<QWidget*>(QLatin1String(name));
        window_.findChild<QScrollArea*>(QStringLiteral("resultScroll"))->ensureWidgetVisible(shown, 0, 20);
        QTest::qWait(150);
    }

    [[nodiscard]] QLineEdit* field(const char* name) const
    {
        return window_.findChild<QLineEdit*>(QLatin1String(name));
    }
    void press(const char* name) const { window_.findChild<QPushButton*>(QLatin1String(name))->click(); }
    [[nodiscard]] bool at(const char* place) const
    {
        const auto* session = window_.bench().session();
        return session != nullptr && session->running() && session->view().place == place;
    }
    bool running(const char* place)
    {
        return until([&] { return at(place); }, 10);
    }

    static bool until(const std::function<bool()>& true_now, int seconds)
    {
        QElapsedTimer timer;
        timer.start();
        while (!true_now() && timer.elapsed() < 1000LL * seconds)
            QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents | QEventLoop::AllEvents, 30);
        return true_now();
    }

    void shoot(const char* page) { shoot(page, &window_); }
    void shoot(const char* page, QWidget* what)
    {
        QCoreApplication::processEvents();
        if (what == &window_ && window_.size() != variant_.size)
            std::fprintf(stderr, "%s, %s: the window grew to %d x %d\n", variant_.name, page, window_.width(),
                         window_.height());
        const auto file =
            QStringLiteral("%1/%2-%3.png").arg(folder_, QLatin1String(variant_.name), QLatin1String(page));
        constexpr int smallest = 0; // what PNG calls its best compression
        if (!what->grab().save(file, "PNG", smallest))
            std::fprintf(stderr, "cannot write %s\n", qPrintable(file));
    }

    QString own_procedure()
    {
        const auto file = scratch_.filePath(QStringLiteral("own.json"));
        QFile out(file);
        if (out.open(QIODevice::WriteOnly))
            out.write(R"({"schema": "zeroline/procedure/1", "name": "own", "revision": "1", "steps": [
                {"kind": "nobody-connected"},
                {"kind": "value", "item": "earth resistance", "unit": "ohm", "high": 0.3, "basis": "rule 7",
                 "say": "Type the earth resistance from the report of the electrical test."},
                {"kind": "settings-found"}, {"kind": "zero"}, {"kind": "plug"},
                {"kind": "each-preset", "steps": [{"kind": "manual"}, {"kind": "automatic"}]},
                {"kind": "ladder", "from": 20, "rise": 10}, {"kind": "zero-again"}, {"kind": "hand-back"}]})");
        return file;
    }

    QString short_order()
    {
        auto order = session::order_from_text(demonstration_order()).meaning;
        order.presets.front().insufflation.duration_s = order.presets.front().exsufflation.duration_s = 1.5;
        order.presets.front().pause.duration_s = 1.0;
        order.cycles = 3;
        if (variant_.procedure == std::string_view("home-visit"))
            order.occasion = verification::Occasion::home_visit;
        const auto file = scratch_.filePath(QStringLiteral("WO-2041.json"));
        QFile out(file);
        if (out.open(QIODevice::WriteOnly))
            out.write(QByteArray::fromStdString(session::text_of(order)));
        return file;
    }
    static std::string demonstration_order()
    {
        QFile in(QStringLiteral(ZEROLINE_SOURCE_DIR "/fixtures/demonstration/order.json"));
        return in.open(QIODevice::ReadOnly) ? in.readAll().toStdString() : std::string{};
    }

    QString folder_;
    Variant variant_;
    QTemporaryDir scratch_;
    MainWindow window_;
};

bool take_one(QApplication& application, const QString& folder, const Variant& variant)
{
    const OwnSettings settings;
    QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    if (variant.dark)
        QApplication::setPalette(dark_palette());
    if (variant.name == std::string_view("contrast"))
        QSettings().setValue(QStringLiteral("window/scheme"), QStringLiteral("contrast"));
    auto font = QApplication::font();
    font.setPointSizeF(font.pointSizeF() * variant.font_scale);
    QApplication::setFont(font);
    install_language(application, QLatin1String(variant.language));
    Album album(folder, variant);
    const bool whole = album.take_all();
    if (!whole)
        std::fprintf(stderr, "%s: stopped at '%s'\n", variant.name, qPrintable(album.stands_at()));
    return whole;
}

/// A few at a time: each is a run in real time, and a computer that is late shows it.
int take_all(const QString& folder)
{
    constexpr std::size_t at_once = 3;
    int failed = 0;
    for (std::size_t first = 0; first < kVariants.size(); first += at_once) {
        std::vector<std::unique_ptr<QProcess>> processes;
        for (auto i = first; i < std::min(first + at_once, kVariants.size()); ++i) {
            auto process = std::make_unique<QProcess>();
            process->setProcessChannelMode(QProcess::ForwardedChannels);
            process->start(QCoreApplication::applicationFilePath(), {folder, QLatin1String(kVariants[i].name)});
            processes.push_back(std::move(process));
        }
        for (const auto& process : processes) {
            process->waitForFinished(-1);
            failed += process->exitCode() == 0 ? 0 : 1;
        }
    }
    return failed;
}

} // namespace
} // namespace zeroline::window

int main(int argc, char** argv)
{
    using namespace zeroline::window;
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM"))
        qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication application(argc, argv);
    const auto arguments = QApplication::arguments();
    if (arguments.size() < 2) {
        std::fprintf(stderr, "usage: %s FOLDER [VARIANT]\n", argv[0]);
        return 2;
    }
    QDir().mkpath(arguments.at(1));
    if (arguments.size() == 2)
        return take_all(arguments.at(1));
    for (const auto& variant : kVariants)
        if (arguments.at(2) == QLatin1String(variant.name))
            return take_one(application, arguments.at(1), variant) ? 0 : 1;
    std::fprintf(stderr, "unknown variant %s\n", qPrintable(arguments.at(2)));
    return 2;
}
