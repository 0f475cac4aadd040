// The register as a person meets it: what is due, one unit over its visits, a run begun from it. Where
// ZEROLINE_TEST_SERVER names a PostgreSQL server, the bench file of the window names a register there.

#include "tests/gui/window/driven_window.hpp"

#include "gui/charts/overlay_chart.hpp"
#include "gui/charts/trend_chart.hpp"
#include "gui/records/json_file.hpp"
#include "gui/register/delivery.hpp"
#include "gui/register/unit_register.hpp"
#include "gui/register/unit_standing.hpp"
#include "gui/window/register_place.hpp"
#include "gui/window/register_rows.hpp"
#include "gui/window/register_table.hpp"
#include "tests/gui/register/register_place.hpp"

#include <QDate>
#include <QItemSelectionModel>
#include <QScrollBar>
#include <QTableView>
#include <QTimer>

#include <arpa/inet.h>
#include <ctime>
#include <sys/socket.h>
#include <unistd.h>

namespace zeroline::window {
namespace {

namespace fs = std::filesystem;
using std::chrono::seconds;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;
using unit_register::Database;
using unit_register::Entry;
using unit_register::UnitRegister;

const fs::path kSavedRecords = ZEROLINE_SOURCE_DIR "/tests/gui/records/method_1";

class RegisterPlaceTest : public DrivenWindow {
protected:
    RegisterPlaceTest()
    {
        if (!unit_register::test_server().empty())
            use_register_at(unit_register::RegisterPlace(fs::path()));
    }
    /// As a bench file says it; the window reads it as it is made.
    void use_register_at(const std::string& place)
    {
        options_.bench_file = folder_.filePath("bench.json").toStdString();
        std::ofstream(options_.bench_file) << nlohmann::json{{"schema", "zeroline/bench/1"}, {"register", place}};
    }
    [[nodiscard]] std::string register_is() const
    {
        const auto& file = options_.bench_file;
        return unit_register::register_place({file.empty() ? std::nullopt : std::optional<fs::path>(file)});
    }

    /// A visit that a saved record stands behind: on that day, off by `off` from what it was, captured here.
    void register_visit(const std::string& record, const std::string& number, const std::string& day,
                        double off = 0.0) const
    {
        auto entry = unit_register::read_entry(kSavedRecords / record);
        entry.verification["record_number"] = number;
        entry.verification["day"] = day;
        entry.verification["began_utc"] = day + "T09:00:00Z";
        entry.verification["origin"] = "captured-here";
        entry.verification["next_due"] = "2001-01-01";
        for (auto& figure : entry.figures) {
            figure["record_number"] = number;
            if (figure["mean"].is_number())
                figure["mean"] = figure["mean"].get<double>() + off;
        }
        static_cast<void>(UnitRegister::open(register_is()).add(entry, records::SigningKey::make()));
    }
    /// As many units as are wanted, five visits each, without figures.
    void fill(int units) const
    {
        static_cast<void>(UnitRegister::open(register_is()));
        const auto database = Database::open(register_is());
        const std::string count = "WITH RECURSIVE n (i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i + 1 < ";
        database.in_one_step([&] {
            database.run(count + std::to_string(units) +
                         ") INSERT INTO unit (asset, serial, model) SELECT 'U-' || substr(CAST(100000 + i AS TEXT), "
                         "2), 'K' || i, "
                         "'unit A' FROM n");
            database.run(count + std::to_string(5 * units) +
                         ") INSERT INTO verification SELECT 'N' || i, 'U-' || substr(CAST(100000 + i % " +
                         std::to_string(units) +
                         " AS TEXT), 2), NULL, NULL, 'WO', 'periodic', (2001 + i % 5) || '-02-03', (2001 + i % 5) || "
                         "'-02-03T09:00:00Z', 'pass', 'pass', 0, 'captured-here', 'Operator Three', '', '', 'm' || i, "
                         "'2006-02-03' FROM n");
            unit_register::keep_every_standing(database);
        });
    }
    /// What a saved record was made from, before it was sealed.
    void open_a_run_that_nobody_signed() const
    {
        const auto part = fs::path(records()) / "yesterday.part";
        fs::create_directories(part);
        for (const auto* file : {"order.json", "instrument.json", "bench.json", "run.json", "trace.csv"})
            fs::copy_file(kSavedRecords / "pass" / file, part / file);
        window_->bench().take_file(QString::fromStdString(part.string()));
        ASSERT_TRUE(shows("resultPage")) << text("trouble");
    }
    [[nodiscard]] QTableView* list() const { return find<QTableView>("registerList"); }
    [[nodiscard]] std::string cell(const char* table, int row, int column) const
    {
        return find<QTableView>(table)->model()->index(row, column).data().toString().toStdString();
    }
    void go_to_the_register() const
    {
        QTest::keyClick(window_.get(), Qt::Key_2, Qt::ControlModifier);
        ASSERT_TRUE(wait_for([&] { return shows("registerPlace"); }, seconds(5)));
        ASSERT_TRUE(wait_for([&] { return !text("registerSays").starts_with("Looking"); }, seconds(20)));
    }
    void choose_row(int row) const
    {
        QTest::mouseClick(list()->viewport(), Qt::LeftButton, {},
                          list()->visualRect(list()->model()->index(row, 0)).center());
    }
    void look_for(const char* typed) const
    {
        find<QLineEdit>("registerSearch")->clear();
        QTest::keyClicks(find<QLineEdit>("registerSearch"), QLatin1String(typed));
        wait(std::chrono::milliseconds(200)); // longer than it waits for the next letter
        ASSERT_TRUE(wait_for([&] { return !text("registerSays").starts_with("Looking"); }, seconds(20)));
    }
};

TEST_F(RegisterPlaceTest, ShowsWhatIsDueFirstAndOneUnitWithItsVisitsAndTrend)
{
    for (int visit = 0; visit < 5; ++visit)
        register_visit("fail", "V" + std::to_string(visit), std::to_string(2020 + visit) + "-03-04", 0.2 * visit);
    ASSERT_NO_FATAL_FAILURE(go_to_the_register());
    ASSERT_EQ(list()->model()->rowCount(), 1);
    EXPECT_EQ(cell("registerList", 0, 0), "RC-0117");
    EXPECT_EQ(cell("registerList", 0, 2), "! overdue");
    choose_row(0);
    auto* visits = find<QTableView>("visits");
    for (const int width : {1024, 1200, 1800}) {
        window_->resize(width, 700);
        for (const auto* table : {list(), visits})
            EXPECT_TRUE(wait_for([&] { return table->horizontalScrollBar()->maximum() == 0; }, seconds(2)))
                << table->objectName().toStdString() << ": nobody scrolls sideways, " << width;
        EXPECT_TRUE(wait_for([&] { return !list()->isColumnHidden(3); }, seconds(2)))
            << "due, state and verdict are never left out, " << width;
        const auto said = not_shown_of(list())->text();
        for (int column = 4; column < list()->model()->columnCount(); ++column) {
            const auto heading = list()->model()->headerData(column, Qt::Horizontal).toString();
            EXPECT_EQ(said.contains(heading), list()->isColumnHidden(column)) << said.toStdString() << width;
        }
    }
    EXPECT_TRUE(wait_for([&] { return !list()->isColumnHidden(5); }, seconds(2))) << "there is room now";
    ASSERT_TRUE(wait_for([&] { return visits->model()->rowCount() == 5; }, seconds(20)));
    EXPECT_EQ(cell("visits", 0, 0), "2024-03-04") << "the newest on top";
    EXPECT_THAT(cell("visits", 0, 1), HasSubstr("fail"));
    auto* quantity = find<QComboBox>("trendQuantity");
    ASSERT_TRUE(wait_for([&] { return quantity->count() > 2; }, seconds(20)));
    const auto trend = find<charts::TrendChart>("trend")->shown();
    EXPECT_EQ(std::count_if(trend.curves.begin(), trend.curves.end(), [](const auto& curve) { return curve.dots; }), 5);
    const auto bars = std::count_if(trend.curves.begin(), trend.curves.end(), [](const charts::Curve& curve) {
        return !curve.dots && curve.points.size() == 2 && curve.points[0].x() == curve.points[1].x();
    });
    EXPECT_EQ(bars, 5) << "U as a bar";
    EXPECT_FALSE(trend.areas.isEmpty()) << "the limits";
    EXPECT_GT(trend.marks.size(), 3) << "the years";
    EXPECT_THAT(text("drift"), HasSubstr("a year"));
    EXPECT_THAT(text("unitSays"), HasSubstr("The next check was due on 2001-01-01"));
    auto* cycles = find<charts::OverlayChart>("visitCycles");
    ASSERT_TRUE(wait_for([&] { return cycles->shown().curves.size() > 2; }, seconds(20)));
    const auto& curves = cycles->shown().curves;
    EXPECT_TRUE(std::any_of(curves.begin(), curves.end(), [](const charts::Curve& curve) {
        return curve.pen == charts::Pen::earlier;
    })) << "the visit before under this one";
    press("openVisit");
    ASSERT_TRUE(shows("resultPage")) << text("trouble");
    EXPECT_THAT(text("identity"), HasSubstr("RC-0117"));
}

TEST_F(RegisterPlaceTest, SaysOfCyclesThatNoUnitMadeWhereTheyAreFrom)
{
    register_visit("pass", "V1", "2024-03-04");
    auto simulated = unit_register::read_entry(kSavedRecords / "pass");
    simulated.verification["record_number"] = "V2";
    simulated.verification["began_utc"] = "2024-04-04T09:00:00Z";
    simulated.verification["origin"] = "simulated";
    for (auto& figure : simulated.figures)
        figure["record_number"] = "V2";
    static_cast<void>(UnitRegister::open(register_is()).add(simulated, records::SigningKey::make()));
    ASSERT_NO_FATAL_FAILURE(go_to_the_register());
    ASSERT_NO_FATAL_FAILURE(look_for("RC-0117"));
    auto* visits = find<QTableView>("visits");
    ASSERT_TRUE(wait_for([&] { return visits->model()->rowCount() == 2; }, seconds(20)));
    ASSERT_TRUE(wait_for([&] { return find<QLabel>("cyclesOrigin")->isVisibleTo(window_.get()); }, seconds(20)));
    EXPECT_EQ(text("cyclesOrigin"), "this visit: ! SIMULATED");
    visits->selectRow(1);
    EXPECT_TRUE(wait_for([&] { return find<QLabel>("cyclesOrigin")->isHidden(); }, seconds(20)));
}

TEST_F(RegisterPlaceTest, NarrowsTheListAsSomebodyTypesAndExportsWhatIsShown)
{
    fill(300);
    ASSERT_NO_FATAL_FAILURE(go_to_the_register());
    EXPECT_EQ(list()->model()->rowCount(), RegisterRows::kPage) << "a page, not all";
    EXPECT_THAT(text("registerSays"), HasSubstr("and more"));
    ASSERT_NO_FATAL_FAILURE(look_for("u-0029"));
    EXPECT_EQ(list()->model()->rowCount(), 10);
    const auto file = folder_.filePath("list.csv");
    window_->unit_register().export_to(file);
    ASSERT_TRUE(wait_for([&] { return fs::exists(file.toStdString()); }, seconds(20)));
    const auto csv = records::read_file(file.toStdString());
    EXPECT_EQ(std::count(csv.begin(), csv.end(), '\n'), 11);
    EXPECT_THAT(csv, AllOf(HasSubstr("asset,"), HasSubstr("U-00299"), Not(HasSubstr("U-00100"))));
    ASSERT_NO_FATAL_FAILURE(look_for("U-00007"));
    EXPECT_TRUE(wait_for([&] { return find<QTableView>("visits")->model()->rowCount() == 5; }, seconds(20)))
        << "the only one is chosen";
    EXPECT_THAT(text("drift"), Not(HasSubstr("a year"))) << "no figures, no drift";
    window_->unit_register().export_to(QStringLiteral("/nowhere/list.csv"));
    EXPECT_TRUE(
        wait_for([&] { return text("registerSays").find("could not be written") != std::string::npos; }, seconds(20)));
}

TEST_F(RegisterPlaceTest, BeginsARunWithAUnitAndTheOrderOfItsLastRecord)
{
    register_visit("pass", "V1", "2024-03-04");
    ASSERT_NO_FATAL_FAILURE(go_to_the_register());
    choose_row(0);
    press("beginWithUnit");
    ASSERT_TRUE(shows("startPage"));
    ASSERT_TRUE(wait_for([&] { return find<QPushButton>("begin")->isEnabled(); }, seconds(20))) << text("trouble");
    EXPECT_THAT(text("knownUnit"), AllOf(HasSubstr("2024-03-04"), HasSubstr("pass")));
    EXPECT_EQ(find<QLineEdit>("startAsset")->text(), "RC-0117");
    EXPECT_EQ(window_->bench().start_page().order().meaning.unit.asset, "RC-0117");
    EXPECT_THAT(text("orderSummary"), Not(HasSubstr("choose its order")));
    const auto sealed = records::read_file(kSavedRecords / "pass" / "order.json");
    press("orderEdit");
    press("orderSave");
    EXPECT_EQ(records::read_file(kSavedRecords / "pass" / "order.json"), sealed) << "a copy is edited, no record";
}

TEST_F(RegisterPlaceTest, FindsTheScannedUnitAndItsLastRecord)
{
    register_visit("pass", "V1", "2024-03-04");
    scan("RC-0117");
    ASSERT_TRUE(wait_for([&] { return find<QPushButton>("begin")->isEnabled(); }, seconds(20))) << text("trouble");
    EXPECT_THAT(text("knownUnit"), HasSubstr("Last visit 2024-03-04"));
    scan("RC-9999");
    wait(std::chrono::milliseconds(200));
    EXPECT_FALSE(find<QLabel>("knownUnit")->isVisible());
    EXPECT_THAT(text("trouble"), HasSubstr("RC-9999"));
    ASSERT_NO_FATAL_FAILURE(go_to_the_register());
    scan("RC-0117");
    EXPECT_TRUE(wait_for([&] { return find<QTableView>("visits")->model()->rowCount() == 1; }, seconds(20)))
        << "the register looks for it too";
}

TEST_F(RegisterPlaceTest, NamesRunsThatNobodySignedAndOpensThem)
{
    fs::create_directories(records());
    fs::copy(kSavedRecords / "imported.part", fs::path(records()) / "yesterday.part", fs::copy_options::recursive);
    ASSERT_NO_FATAL_FAILURE(go_to_the_register());
    EXPECT_EQ(text("registerSays"), "Nothing here.");
    press("listNotSigned");
    ASSERT_TRUE(wait_for([&] { return list()->model()->rowCount() == 1; }, seconds(20)));
    EXPECT_EQ(cell("registerList", 0, 0), "yesterday");
    choose_row(0);
    press("openRun");
    ASSERT_TRUE(shows("resultPage")) << text("trouble");
    EXPECT_THAT(text("identity"), HasSubstr("not signed"));
}

TEST_F(RegisterPlaceTest, ShowsInstrumentsAndTheRecordsMadeWithOne)
{
    register_visit("pass", "V1", "2024-03-04");
    ASSERT_NO_FATAL_FAILURE(go_to_the_register());
    press("listInstruments");
    ASSERT_TRUE(wait_for([&] { return list()->model()->rowCount() == 1; }, seconds(20)));
    choose_row(0);
    ASSERT_TRUE(wait_for([&] { return find<QTableView>("touched")->model()->rowCount() == 1; }, seconds(20)));
    EXPECT_EQ(cell("touched", 0, 3), "RC-0117");
    EXPECT_FALSE(shows("suspicion"));
    EXPECT_FALSE(find<QPushButton>("openTouched")->isEnabled());
    find<QTableView>("touched")->selectRow(0);
    EXPECT_TRUE(find<QPushButton>("openTouched")->isEnabled());
}

/// Three units, each off by the same tenth; the instrument was calibrated each year, and showed more each time.
TEST_F(RegisterPlaceTest, SaysWhichInstrumentIsSuspectedAndHowItDrifts)
{
    const auto today = QDate::currentDate();
    const auto units = UnitRegister::open(register_is());
    for (int i = 0; i < 4; ++i) {
        auto entry = unit_register::read_entry(kSavedRecords / "pass");
        const auto number = "S" + std::to_string(i), asset = "RC-" + std::to_string(i);
        entry.unit["asset"] = asset;
        entry.verification.update({{"record_number", number},
                                   {"asset", asset},
                                   {"day", today.toString(Qt::ISODate).toStdString()},
                                   {"origin", "captured-here"}});
        for (auto& figure : entry.figures) {
            figure["record_number"] = number;
            if (figure["mean"].is_number() && figure["target"].is_number())
                figure["mean"] = 1.1 * figure["target"].get<double>();
        }
        for (auto& check : entry.instrument_checks) {
            check["day"] = today.addYears(i - 4).toString(Qt::ISODate).toStdString();
            check["next_due"] = today.addYears(3).toString(Qt::ISODate).toStdString();
            check["indicated"] = check["reference"].get<double>() + 0.2 * i;
            check["expanded_uncertainty"] = 0.02;
            check["allowed_drift"] = 0.5;
        }
        static_cast<void>(units.add(entry, records::SigningKey::make()));
    }
    ASSERT_NO_FATAL_FAILURE(go_to_the_register());
    press("listInstruments");
    ASSERT_TRUE(wait_for([&] { return list()->model()->rowCount() == 1; }, seconds(20)));
    EXPECT_EQ(cell("registerList", 0, 2), "! suspected");
    choose_row(0);
    ASSERT_TRUE(shows("suspicion"));
    EXPECT_THAT(text("suspicion"), AllOf(HasSubstr("4 different units"), HasSubstr("+10.0 %")));
    auto* quantity = find<QComboBox>("instrumentQuantity");
    ASSERT_TRUE(wait_for([&] { return quantity->count() == 3; }, seconds(20)));
    EXPECT_EQ(quantity->itemText(0), "indication less reference (-60 cmH2O)");
    EXPECT_THAT(text("instrumentDrift"), HasSubstr("+0.200 cmH2O a year"));
    const auto curves = find<charts::TrendChart>("instrumentTrend")->shown().curves;
    EXPECT_EQ(std::count_if(curves.begin(), curves.end(), [](const auto& curve) { return curve.dots; }), 4);
    EXPECT_THAT(text("instrumentSays"), HasSubstr("Check it sooner")) << "0.5 more is reached before three years";
}

/// Whose answer is not there yet, or never comes, shows nothing of the unit chosen before.
TEST_F(RegisterPlaceTest, ShowsNothingOfAnotherUnitUnderTheNameOfOneThatIsChosen)
{
    register_visit("pass", "V1", "2024-03-04");
    const std::vector<unit_register::Value> new_one{{{"asset", "RC-9"}, {"serial", "K9"}, {"model", "unit B"}}};
    static_cast<void>(UnitRegister::open(register_is()).add_units(new_one, records::SigningKey::make()));
    ASSERT_NO_FATAL_FAILURE(go_to_the_register());
    ASSERT_NO_FATAL_FAILURE(look_for("RC-0117"));
    auto* visits = find<QTableView>("visits");
    ASSERT_TRUE(wait_for([&] { return visits->model()->rowCount() == 1; }, seconds(20)));
    ASSERT_NO_FATAL_FAILURE(look_for("RC-9"));
    EXPECT_EQ(text("unitAsset"), "RC-9");
    EXPECT_EQ(visits->model()->rowCount(), 0) << "at once, whenever the answer comes";
    EXPECT_THAT(text("unitSays"), Not(HasSubstr("K1")));
    EXPECT_FALSE(find<QPushButton>("openVisit")->isEnabled());
    EXPECT_TRUE(find<charts::OverlayChart>("visitCycles")->shown().curves.isEmpty());
}

TEST_F(RegisterPlaceTest, RegistersWhatIsSavedWhereTheBenchFileSays)
{
    ASSERT_NO_FATAL_FAILURE(open_a_run_that_nobody_signed());
    ASSERT_NO_FATAL_FAILURE(sign_and_save());
    const auto registered = [&] { return UnitRegister::open(register_is()).units().size(); };
    EXPECT_TRUE(wait_for([&] { return registered() == 1U; }, seconds(20))) << text("told");
}

/// Takes connections and never says a word: a server that hangs.
class SilentServer {
public:
    SilentServer()
    {
        sockaddr_in here{};
        here.sin_family = AF_INET;
        here.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        socklen_t size = sizeof here;
        EXPECT_EQ(::bind(socket_, reinterpret_cast<sockaddr*>(&here), size), 0);
        EXPECT_EQ(::listen(socket_, 16), 0);
        EXPECT_EQ(::getsockname(socket_, reinterpret_cast<sockaddr*>(&here), &size), 0);
        url_ = "postgresql://ward@127.0.0.1:" + std::to_string(ntohs(here.sin_port)) + "/units?sslmode=disable";
    }
    ~SilentServer() { ::close(socket_); }
    SilentServer(const SilentServer&) = delete;
    SilentServer& operator=(const SilentServer&) = delete;
    [[nodiscard]] const std::string& url() const { return url_; }

private:
    int socket_ = ::socket(AF_INET, SOCK_STREAM, 0);
    std::string url_;
};

class RegisterThatIsAwayTest : public RegisterPlaceTest {
protected:
    RegisterThatIsAwayTest()
    {
        qputenv("PGCONNECT_TIMEOUT", "2");
        use_register_at(server_.url());
    }
    ~RegisterThatIsAwayTest() override { qunsetenv("PGCONNECT_TIMEOUT"); }

    SilentServer server_;
};

TEST_F(RegisterThatIsAwayTest, IsToldInALineWhileTheWindowGoesOn)
{
    auto last = std::chrono::steady_clock::now();
    std::chrono::duration<double> longest{0.0};
    QTimer turning;
    QObject::connect(&turning, &QTimer::timeout, [&] {
        longest = std::max<std::chrono::duration<double>>(longest, std::chrono::steady_clock::now() - last);
        last = std::chrono::steady_clock::now();
    });
    turning.start(1);
    const auto began = std::chrono::steady_clock::now();
    press("toRegister");
    press("listUnits"); // another question, asked meanwhile
    ASSERT_TRUE(wait_for([&] { return text("registerSays").starts_with("postgresql"); }, seconds(30)))
        << text("registerSays");
    if (text("registerSays").find("no driver") != std::string::npos)
        GTEST_SKIP() << text("registerSays");
    EXPECT_THAT(text("registerSays"), HasSubstr("cannot be opened"));
    EXPECT_THAT(text("registerSays"), Not(HasSubstr("\n")));
    const std::chrono::duration<double> waited = std::chrono::steady_clock::now() - began;
    EXPECT_GT(waited.count(), 1.0) << "the server was waited for";
    EXPECT_LT(longest.count(), 1.0) << "and the window was not held up";
    // A save is not held up by it either: the record is there, and what the register did not take is told later.
    press("toBench");
    ASSERT_NO_FATAL_FAILURE(open_a_run_that_nobody_signed());
    ASSERT_NO_FATAL_FAILURE(sign_and_save());
    EXPECT_THAT(text("told"), AllOf(HasSubstr("Saved in"), Not(HasSubstr("registered"))));
    EXPECT_TRUE(wait_for([&] { return text("told").find("not registered yet") != std::string::npos; }, seconds(30)))
        << text("told");
    EXPECT_THAT(text("told"), HasSubstr("Saved in"));
}

/// The last visit is found through the register by the unit.
TEST_F(RegisterPlaceTest, LaysTheMedianCycleOfTheLastVisitUnderThatOfARecord)
{
    auto earlier = unit_register::read_entry(kSavedRecords / "pass");
    const auto origin = earlier.verification["origin"];
    register_visit("pass", "V1", "2001-03-04");
    window_->bench().take_file(QString::fromStdString((kSavedRecords / "pass").string()));
    auto* overlay = find<charts::OverlayChart>("overlay");
    const auto has_earlier = [&] {
        const auto& curves = overlay->shown().curves;
        return std::any_of(curves.begin(), curves.end(),
                           [](const charts::Curve& curve) { return curve.pen == charts::Pen::earlier; });
    };
    if (origin != "captured-here") {
        wait(std::chrono::milliseconds(500));
        EXPECT_FALSE(has_earlier()) << "a real visit is none before a simulated one";
        earlier.verification["record_number"] = "V0";
        earlier.verification["began_utc"] = "2001-01-01T00:00:00Z";
        for (auto& figure : earlier.figures)
            figure["record_number"] = "V0";
        static_cast<void>(UnitRegister::open(register_is()).add(earlier, records::SigningKey::make()));
        window_->bench().take_file(QString::fromStdString((kSavedRecords / "pass").string()));
    }
    EXPECT_TRUE(wait_for(has_earlier, seconds(20)));
}

TEST_F(RegisterPlaceTest, StaysFluidWithAHundredThousandVerifications)
{
    fill(20000);
    int turns = 0;
    QTimer turning;
    QObject::connect(&turning, &QTimer::timeout, [&] { ++turns; });
    turning.start(1);
    const auto cpu_s = [] {
        timespec now{};
        clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
        return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
    };
    const auto began = std::chrono::steady_clock::now();
    const double cpu_before_s = cpu_s();
    ASSERT_NO_FATAL_FAILURE(go_to_the_register());
    const std::chrono::duration<double> first = std::chrono::steady_clock::now() - began;
    EXPECT_GT(turns, 5) << "the window stood still while the register was asked";
    // Somebody scrolls down: page after page.
    for (int page = 2; page <= 5; ++page) {
        list()->scrollToBottom();
        ASSERT_TRUE(wait_for([&] { return list()->model()->rowCount() == page * RegisterRows::kPage; }, seconds(20)));
    }
    ASSERT_NO_FATAL_FAILURE(look_for("U-12345"));
    EXPECT_EQ(list()->model()->rowCount(), 1);
    const double cpu_here_s = cpu_s() - cpu_before_s;
    std::cout << "first page " << first.count() << " s; the window's thread " << cpu_here_s << " s in all\n";
    // Usually 1 s; beside seven other tests on two slow cores, and with a server, 2.6 s were seen.
    EXPECT_LT(cpu_here_s, 8.0) << "what the window's own thread had to do for six pages and a search";
}

} // namespace
} // namespace zeroline::window
