#include "acquisition/trace/input_error.hpp"
#include "analysis/verification/run_log.hpp"

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
    verification::WorkOrder order;
    order.presets.emplace_back();
    order.presets.back().name = "day";
    try {
        const auto written = verification::to_json(verification::parse_run_log(tree, order));
        // What was accepted is accepted again, and says the same.
        if (verification::to_json(verification::parse_run_log(written, order)) != written) {
            std::abort();
        }
    } catch (const zeroline::trace::InputError&) {
    }
    return 0;
}
