#include "gui/console/command.hpp"

#include "gui/records/digest.hpp"
#include "gui/records/software.hpp"

#include <boost/version.hpp>
#include <CLI/Version.hpp>
#include <nlohmann/json.hpp>
#include <QtGlobal>

namespace zeroline::console {

std::string version_text()
{
    const auto& software = records::this_software();
    const auto number = [](int value) { return std::to_string(value); };
    return "zeroline " + software.version + "\nbuild " + software.build + "\nBoost " + number(BOOST_VERSION / 100000) +
           "." + number(BOOST_VERSION / 100 % 1000) + "." + number(BOOST_VERSION % 100) + "\nnlohmann_json " +
           number(NLOHMANN_JSON_VERSION_MAJOR) + "." + number(NLOHMANN_JSON_VERSION_MINOR) + "." +
           number(NLOHMANN_JSON_VERSION_PATCH) + "\nCLI11 " CLI11_VERSION "\nQt " + qVersion() +
           "\n" ZEROLINE_LIBRARIES "\nValijson (names no version)\n" + records::cryptography() +
           "\nlicence GPL-3.0-or-later: no warranty";
}

} // namespace zeroline::console
