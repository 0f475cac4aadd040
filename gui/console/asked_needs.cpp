#include "gui/console/asked_needs.hpp"

#include "gui/records/json_file.hpp"
#include "gui/session/run_files.hpp"
#include "gui/session/sealing_needs.hpp"

#include <nlohmann/json.hpp>

#include <cctype>

namespace zeroline::console {

using session::Need;

namespace {

std::vector<Need> needs_of(const VerifyOptions& options, const RunInputs& inputs)
{
    const auto& signer = options.signing.signer.empty() ? options.run_operator : options.signing.signer;
    return session::sealing_needs(inputs.order.meaning, inputs.bench ? &inputs.bench->meaning : nullptr, options.place,
                                  signer);
}

void put_customer(RunInputs& inputs, const std::string& customer)
{
    auto tree = records::parse_ordered_json(inputs.order.text);
    tree["customer"] = customer;
    inputs.order = session::order_from_text(tree.dump(2) + "\n");
}

/// Only what a record keeps of a bench file stands in `text`, and that is all a run needs of it.
void put_into_bench(RunInputs& inputs, const char* key, const std::string& value)
{
    if (!inputs.bench) {
        inputs.bench = session::bench_of("", "");
    }
    auto tree = records::parse_ordered_json(inputs.bench->text);
    tree[key] = value;
    auto changed = session::bench_from_text(tree.dump());
    changed.meaning.duty = inputs.bench->meaning.duty;
    inputs.bench = std::move(changed);
}

void put(Need need, const std::string& answer, VerifyOptions& options, RunInputs& inputs)
{
    switch (need) {
    case Need::organisation:
        put_into_bench(inputs, "organisation", answer);
        break;
    case Need::address:
        put_into_bench(inputs, "address", answer);
        break;
    case Need::customer:
        put_customer(inputs, answer);
        break;
    case Need::place:
        options.place = answer;
        break;
    case Need::signer:
        options.run_operator = answer;
        break;
    }
}

std::string as_question(std::string words)
{
    words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
    return words + " [-: not known now]:";
}

} // namespace

void ask_for_sealing_needs(VerifyOptions& options, RunInputs& inputs, Terminal& terminal)
{
    if (!options.yes) {
        for (const auto need : needs_of(options, inputs)) {
            if (const auto answer = terminal.ask_for_text(as_question(session::words_of(need)))) {
                put(need, *answer, options, inputs);
            }
        }
    }
    if (const auto open = needs_of(options, inputs); !open.empty()) {
        terminal.say("Not known, so this run will not be sealed before it is: " + session::words_of(open) + ".");
    }
}

} // namespace zeroline::console
