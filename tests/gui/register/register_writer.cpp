// Registers made-up verifications one after the other, each until the register has taken it, as a bench does.
// usage: register_writer PLACE NAME COUNT

#include "gui/register/unit_register.hpp"
#include "tests/gui/register/made_up_entry.hpp"

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <thread>

namespace {

namespace reg = zeroline::unit_register;

constexpr int kLongestTries = 600; // with a tenth of a second between them

bool taken(std::optional<reg::UnitRegister>& units, const std::string& place, const reg::Entry& entry,
           const zeroline::records::SigningKey& key)
{
    try {
        if (!units) {
            units = reg::UnitRegister::open(place);
        }
        (void)units->add(entry, key);
        return true;
    } catch (const reg::NotUsableNow&) {
        units.reset();
        std::this_thread::sleep_for(std::chrono::milliseconds(100));
        return false;
    }
}

} // namespace

int main(int argc, char** argv)
{
    if (argc != 4) {
        return 2;
    }
    const std::string place = argv[1], name = argv[2];
    std::optional<reg::UnitRegister> units;
    const auto key = zeroline::records::SigningKey::make();
    int again = 0;
    for (int i = 0; i < std::atoi(argv[3]); ++i) {
        const auto entry = reg::made_up(name + "-" + std::to_string(i), "unit " + std::to_string(i % 10));
        int tries = 0;
        while (!taken(units, place, entry, key)) {
            if (++tries == kLongestTries) {
                std::fprintf(stderr, "%s was not taken\n", entry.record_number().c_str());
                return 1;
            }
        }
        again += tries > 0 ? 1 : 0;
    }
    std::printf("%d", again);
    return 0;
}
