#include "gui/register/schema.hpp"
#include "gui/register/unit_register.hpp"

namespace zeroline::unit_register {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

/// Row by row: a server's tables become those of a file.
void copy_rows(const Database& from, const Database& to)
{
    from.reading_one_moment([&] {
        to.in_one_step([&] {
            for (const auto& table : tables()) {
                for (const auto& row : from.run("SELECT * FROM " + table)) {
                    to.insert(table, Value(row));
                }
            }
        });
    });
}

void copy_server(const Database& from, const fs::path& file)
{
    const fs::path unfinished = fs::path(file).concat(".new");
    std::error_code none;
    fs::remove(unfinished, none);
    try {
        {
            const auto copy = Database::open(unfinished);
            migrate(copy, moment_now());
            copy_rows(from, copy);
            copy.run("PRAGMA journal_mode = DELETE"); // all of it in the one file that is renamed
        }
        fs::rename(unfinished, file);
    } catch (...) {
        fs::remove(unfinished, none);
        throw;
    }
}

} // namespace

void UnitRegister::backup(const fs::path& file) const
{
    if (std::error_code none; fs::symlink_status(file, none).type() != fs::file_type::not_found) {
        throw InputError(file.string(), "is there already", "a file that does not exist yet; nothing is overwritten");
    }
    if (database_.is_on_server()) {
        copy_server(database_, file);
        return;
    }
    database_.run("VACUUM INTO ?", {file.string()});
}

} // namespace zeroline::unit_register
