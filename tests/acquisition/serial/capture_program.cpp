// Captures from a port into a file until it is killed: for tests that kill it.

#include "acquisition/serial/capture.hpp"

#include <chrono>
#include <thread>

int main(int argc, char** argv)
{
    if (argc != 3) {
        return 2;
    }
    zeroline::serial::CaptureSettings settings;
    settings.port = argv[1];
    settings.file = argv[2];
    settings.instrument.port.baud = 115200;
    zeroline::serial::Capture capture(settings);
    capture.start();
    while (true) {
        std::this_thread::sleep_for(std::chrono::hours(1));
    }
}
