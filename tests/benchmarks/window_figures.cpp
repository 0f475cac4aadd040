// What the whole window costs: time to its first picture, processor time while data flow, memory of an hour.
//
//   window_figures start            milliseconds from the start of the process to the first whole picture
//   window_figures live PORT [S]    a run on PORT (a virtual bench in another program), S seconds (30) of its live
//                                   trace
//   window_figures memory           an hour at 1 kHz through the session's parts, faster than real time
//
// One figure a line, for a person or a script; nothing is judged.

#include "tests/gui/window/own_settings.hpp"

#include "gui/charts/trace_chart.hpp"
#include "gui/session/bench_session.hpp"
#include "gui/session/live_feed.hpp"
#include "gui/session/trace_history.hpp"
#include "gui/window/bench_place.hpp"
#include "gui/window/file_choice.hpp"
#include "gui/window/language.hpp"
#include "gui/window/main_window.hpp"
#include "gui/window/start_page.hpp"

#include <QAbstractScrollArea>
#include <QApplication>
#include <QLineEdit>
#include <QPushButton>
#include <QTemporaryDir>
#include <QTimer>

#include <sys/resource.h>
#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <fstream>
#include <string>

namespace zeroline::window {
namespace {

/// Seconds since this process was started, to a hundredth: what the kernel says.
double since_start_s()
{
    std::ifstream in("/proc/self/stat");
    std::string rest;
    std::getline(in, rest);
    rest.erase(0, rest.rfind(')') + 2);
    double started = 0.0;
    std::size_t at = 0;
    for (int field = 3; field < 22; ++field)
        at = rest.find(' ', at) + 1;
    started = std::stod(rest.substr(at)) / static_cast<double>(sysconf(_SC_CLK_TCK));
    timespec now{};
    clock_gettime(CLOCK_BOOTTIME, &now);
    return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec) - started;
}

double cpu_s()
{
    rusage used{};
    getrusage(RUSAGE_SELF, &used);
    const auto seconds = [](const timeval& time) {
        return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
    };
    return seconds(used.ru_utime) + seconds(used.ru_stime);
}

double resident_bytes()
{
    std::ifstream in("/proc/self/statm");
    double pages = 0.0, resident = 0.0;
    in >> pages >> resident;
    return resident * static_cast<double>(sysconf(_SC_PAGESIZE));
}

/// Counts the pictures of a widget.
class Paints : public QObject {
public:
    int count = 0;
    bool eventFilter(QObject* /*watched*/, QEvent* event) override
    {
        count += event->type() == QEvent::Paint ? 1 : 0;
        return false;
    }
};

int start()
{
    MainWindow window;
    window.show();
    // The first round of the event loop exposes and paints; what is posted behind it comes after that.
    QTimer look;
    Paints paints;
    window.installEventFilter(&paints);
    QObject::connect(&look, &QTimer::timeout, [&] {
        if (paints.count > 0)
            QCoreApplication::quit();
    });
    look.start(0);
    QApplication::exec();
    std::printf("%.0f ms to the first picture\n", 1e3 * since_start_s());
    return 0;
}

int live(const QString& port, int seconds)
{
    const QTemporaryDir folder;
    MainWindow window;
    window.resize(1200, 700);
    window.show();
    window.findChild<QLineEdit*>(QStringLiteral("records"))->setText(folder.filePath(QStringLiteral("records")));
    // What a record needs is asked for before a run begins.
    for (const char* name : {"operator", "place", "organisation", "address"})
        window.findChild<QLineEdit*>(QLatin1String(name))->setText(QStringLiteral("figures"));
    window.bench().start_page().choose_order(FileChoice::kDemonstration);
    window.bench().start_page().choose_port(port.toStdString());
    window.findChild<QPushButton*>(QStringLiteral("begin"))->click();
    if (window.bench().session() == nullptr) {
        std::fprintf(stderr, "no run on %s\n", qPrintable(port));
        return 1;
    }
    Paints paints;
    window.findChild<QWidget*>(QStringLiteral("trace"))
        ->findChild<QAbstractScrollArea*>()
        ->viewport()
        ->installEventFilter(&paints);
    double cpu_from_s = 0.0;
    std::size_t samples_from = 0;
    QTimer::singleShot(3000, [&] {
        cpu_from_s = cpu_s();
        paints.count = 0;
        samples_from = window.bench().session()->history().size();
    });
    QTimer::singleShot(3000 + 1000 * seconds, [&] {
        const auto samples = window.bench().session()->history().size() - samples_from;
        std::printf("%.0f samples a second, %.1f pictures of the trace a second, %.1f %% of one processor\n",
                    static_cast<double>(samples) / seconds, static_cast<double>(paints.count) / seconds,
                    100.0 * (cpu_s() - cpu_from_s) / seconds);
        QCoreApplication::exit(0); // quit() would ask first whether the run is to be ended
    });
    return QApplication::exec();
}

int memory()
{
    trace::Instrument instrument;
    instrument.language.field = 1;
    instrument.range = {-100.0, 100.0, 0.01, trace::PressureUnit::cmH2O};
    instrument.nominal_hz = 1000.0;
    session::LiveSamples samples(instrument);
    session::TraceHistory history(1000.0);
    const double before = resident_bytes();
    constexpr std::int64_t kHour = 3'600'000;
    for (std::int64_t i = 0; i < kHour; ++i) {
        serial::Reading reading;
        reading.arrival_s = static_cast<double>(i) / 1000.0;
        reading.value = 40.0 * std::sin(1e-3 * static_cast<double>(i));
        if (const auto sample = samples.push(reading))
            history.append({&*sample, 1});
    }
    const double grown = resident_bytes() - before;
    std::printf("%.0f MB for %.1f million samples: %.1f bytes a sample\n", grown / 1e6,
                static_cast<double>(kHour) / 1e6, grown / static_cast<double>(kHour));
    return history.size() == static_cast<std::size_t>(kHour) ? 0 : 1;
}

} // namespace
} // namespace zeroline::window

int main(int argc, char** argv)
{
    using namespace zeroline::window;
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM"))
        qputenv("QT_QPA_PLATFORM", "offscreen");
    const OwnSettings settings;
    QApplication application(argc, argv);
    QCoreApplication::setOrganizationName(QStringLiteral("zeroline-figures"));
    install_language(application, QStringLiteral("en"));
    const auto words = QApplication::arguments();
    if (words.size() == 2 && words.at(1) == QLatin1String("start"))
        return start();
    if (words.size() >= 3 && words.at(1) == QLatin1String("live"))
        return live(words.at(2), words.size() > 3 ? words.at(3).toInt() : 30);
    if (words.size() == 2 && words.at(1) == QLatin1String("memory"))
        return memory();
    std::fprintf(stderr, "usage: %s start | live PORT [SECONDS] | memory\n", argv[0]);
    return 2;
}
