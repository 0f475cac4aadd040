#include "acquisition/trace/input_error.hpp"
#include "analysis/verification/work_order.hpp"

#include <nlohmann/json.hpp>

#include <cstdint>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    namespace verification = zeroline::verification;
    const auto tree = nlohmann::json::parse(data, data + size, nullptr, false);
    if (tree.is_discarded()) {
        return 0;
    }
    try {
        const auto written = verification::to_json(verification::parse_work_order(tree));
        // What was accepted is accepted again, and says the same.
        if (verification::to_json(verification::parse_work_order(written)) != written) {
            std::abort();
        }
    } catch (const zeroline::trace::InputError&) {
    }
    return 0;
}
