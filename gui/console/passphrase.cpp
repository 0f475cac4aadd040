#include "gui/console/passphrase.hpp"

#include "acquisition/trace/input_error.hpp"

namespace zeroline::console {

using trace::InputError;

records::AskPassphrase ask_at(Terminal& terminal)
{
    return [&terminal](const std::filesystem::path& key_file) {
        return terminal.ask_secret("Passphrase of the key in " + key_file.string() + ":");
    };
}

std::string new_passphrase(Terminal& terminal)
{
    constexpr std::size_t longest = 500;
    const auto first = terminal.ask_secret("New passphrase (Enter: none):");
    const auto second = first ? terminal.ask_secret("Once more:") : std::nullopt;
    if (!second) {
        throw InputError("passphrase", "nobody can be asked for it", "somebody at a terminal");
    }
    if (*first != *second || first->size() > longest) {
        throw InputError("passphrase", *first != *second ? "typed differently the second time" : "is too long",
                         "the same twice, at most " + std::to_string(longest) + " bytes");
    }
    return *first;
}

} // namespace zeroline::console
