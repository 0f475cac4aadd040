#pragma once

#include "acquisition/trace/input_error.hpp"

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

/// The database cannot be used now (not reached, went away, busy, full, not allowed); nothing is wrong with what it was
/// given, and later it may take it.
class NotUsableNow : public trace::InputError {
public:
    using trace::InputError::InputError;
};

/// One connection to the register's database, closed with the last copy. Use it in the thread that opened it. Values
/// never stand in a statement's text: each has its `?`.
class Database {
public:
    /// Opens the SQLite file, or makes it (folders too): write-ahead log, foreign keys, ten seconds' wait for another
    /// writer. Where `place` is the URL of a PostgreSQL server (server_url.hpp): connects to it; the register's tables
    /// are in its schema `zeroline`. Throws NotUsableNow; trace::InputError: no database, a damaged one, a URL that is
    /// none.
    [[nodiscard]] static Database open(const std::string& place);

    /// Runs one statement and returns its rows; an empty array where it has none. Throws NotUsableNow, or
    /// trace::InputError where a rule of the tables refused a row, with what the database said.
    Rows run(const std::string& statement, const std::vector<Value>& values = {}) const;

    /// Adds a row; `otherwise` says what to do where it is there (after ON CONFLICT). Columns are named by this
    /// program.
    void insert(const std::string& table, const Value& row, const std::string& otherwise = {}) const;

    /// All of `work` or nothing of it; one writer at a time.
    void in_one_step(const std::function<void()>& work) const;
    /// Everything that `work` reads is of one moment, and nobody is held up by it.
    void reading_one_moment(const std::function<void()>& work) const;

    /// SQLite's own check of its pages, a line for each trouble. A server looks after its own.
    [[nodiscard]] std::vector<std::string> damage() const;

    [[nodiscard]] const std::string& shown() const noexcept { return connection_->shown; }
    [[nodiscard]] bool is_on_server() const noexcept { return connection_->on_server; }

private:
    struct Connection {
        std::string name;  ///< of Qt
        std::string shown; ///< for people
        bool on_server = false;
        ~Connection();
    };
    explicit Database(std::shared_ptr<const Connection> connection) : connection_(std::move(connection)) {}
    void prepare_file(bool was_left_open) const;
    void prepare_server() const;
    void give_up_step() const;
    void between(const std::vector<std::string>& beginning, const std::function<void()>& work) const;

    std::shared_ptr<const Connection> connection_;
};

} // namespace zeroline::unit_register
