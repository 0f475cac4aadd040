#pragma once

#include <nlohmann/json.hpp>

#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace zeroline::unit_register {

/// A value of a statement or of a row: text, number or null.
using Value = nlohmann::json;
/// Rows as objects, columns in their order.
using Rows = nlohmann::ordered_json;

/// One connection to the register's database, closed with the last copy. Use it in the thread that opened it. Values
/// never stand in a statement's text: each has its `?`.
class Database {
public:
    /// Opens the SQLite file, or makes it (folders too): write-ahead log, foreign keys, ten seconds' wait for another
    /// writer. Throws trace::InputError: cannot be opened, no database, a damaged one.
    [[nodiscard]] static Database open(const std::filesystem::path& file);

    /// Runs one statement and returns its rows; an empty array where it has none. Throws trace::InputError with what
    /// the database said.
    Rows run(const std::string& statement, const std::vector<Value>& values = {}) const;

    /// All of `work` or nothing of it; one writer at a time.
    void in_one_step(const std::function<void()>& work) const;

    /// The database's own check of its pages, a line for each trouble.
    [[nodiscard]] std::vector<std::string> damage() const;

    [[nodiscard]] const std::string& shown() const noexcept { return connection_->shown; }

private:
    struct Connection {
        std::string name;  ///< of Qt
        std::string shown; ///< for people
        ~Connection();
    };
    explicit Database(std::shared_ptr<const Connection> connection) : connection_(std::move(connection)) {}
    std::shared_ptr<const Connection> connection_;
};

} // namespace zeroline::unit_register
