#include "gui/console/run_saving.hpp"

#include "acquisition/serial/capture.hpp"
#include "acquisition/trace/input_error.hpp"
#include "gui/console/local_time.hpp"

#include <nlohmann/json.hpp>

#include <chrono>

namespace zeroline::console {

verification::Origin origin_of(const VerifyOptions& options)
{
    return serial::is_pseudo_terminal(options.port) ? verification::Origin::simulated
                                                    : verification::Origin::captured_here;
}

RunSaving::RunSaving(const VerifyOptions& options, const RunInputs& inputs, const records::RecordFolder& folder,
                     Terminal& terminal)
    : folder_(folder), terminal_(terminal),
      journal_(folder, inputs.key.value(), {origin_of(options), local_rfc3339(std::chrono::system_clock::now())})
{
}

void RunSaving::log(const verification::RunLog& log)
{
    saving([&] {
        const auto tree = verification::to_json(log);
        journal_.log(tree);
        folder_.put(records::name::run, tree.dump(2) + "\n");
    });
}

void RunSaving::end(session::Ending ending)
{
    saving([&] { journal_.end(session::word_of(ending)); });
}

void RunSaving::saving(const std::function<void()>& save)
{
    try {
        save();
    } catch (const trace::InputError& error) {
        if (trouble_ != error.what()) {
            trouble_ = error.what();
            terminal_.say(trouble_);
        }
    }
}

} // namespace zeroline::console
