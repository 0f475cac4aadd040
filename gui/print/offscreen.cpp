#include "gui/print/offscreen.hpp"

#include <QApplication>

#include <array>
#include <string>

namespace zeroline::print {

namespace {

std::mutex& painting()
{
    static std::mutex mutex;
    return mutex;
}

/// Nobody at a terminal wants to read that the session has no folder for sockets.
void silent(QtMsgType, const QMessageLogContext&, const QString&) {}

} // namespace

struct Offscreen::Application {
    // The command line that an application is told of. Qt keeps references to it, and takes out what it has understood.
    std::string program = "zeroline", option = "-platform", value = "offscreen";
    std::array<char*, 4> words{program.data(), option.data(), value.data(), nullptr};
    int count = 3;
    QApplication application{count, words.data()};
};

Offscreen::Offscreen() : only_(painting())
{
    if (QCoreApplication::instance() == nullptr) {
        const auto before = qInstallMessageHandler(silent);
        application_ = std::make_unique<Application>();
        qInstallMessageHandler(before);
    }
}

Offscreen::~Offscreen() = default;

} // namespace zeroline::print
