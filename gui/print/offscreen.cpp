#include "gui/print/offscreen.hpp"

#include <QGuiApplication>

#include <array>

namespace zeroline::print {

namespace {

std::mutex& painting()
{
    static std::mutex mutex;
    return mutex;
}

/// The command line that the application is told of: Qt keeps references to it.
struct CommandLine {
    int count = 3;
    std::array<char, 9> program{"zeroline"};
    std::array<char, 10> option{"-platform"};
    std::array<char, 10> value{"offscreen"};
    std::array<char*, 4> words{program.data(), option.data(), value.data(), nullptr};
};

} // namespace

Offscreen::Offscreen() : only_(painting())
{
    if (QCoreApplication::instance() == nullptr) {
        // One for the whole process: applications made one after the other all refer to it, and never at a time.
        static CommandLine line;
        line = CommandLine();
        line.words = {line.program.data(), line.option.data(), line.value.data(), nullptr};
        application_ = std::make_unique<QGuiApplication>(line.count, line.words.data());
    }
}

Offscreen::~Offscreen() = default;

} // namespace zeroline::print
