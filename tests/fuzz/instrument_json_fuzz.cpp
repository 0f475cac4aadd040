#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/instrument.hpp"

#include <nlohmann/json.hpp>

#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const auto tree = nlohmann::json::parse(data, data + size, nullptr, false);
    if (tree.is_discarded()) {
        return 0;
    }
    try {
        const auto written = zeroline::trace::to_json(zeroline::trace::parse_instrument(tree));
        // What was accepted is accepted again, and says the same.
        if (zeroline::trace::to_json(zeroline::trace::parse_instrument(written)) != written) {
            std::abort();
        }
    } catch (const zeroline::trace::InputError&) {
    }
    return 0;
}
