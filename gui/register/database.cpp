#include "gui/register/database.hpp"

#include "gui/register/server_url.hpp"

#include <QSqlDatabase>
#include <QSqlError>
#include <QSqlField>
#include <QSqlQuery>
#include <QSqlRecord>
#include <QString>
#include <QVariant>

#include <algorithm>
#include <array>
#include <atomic>

namespace zeroline::unit_register {

using trace::InputError;

namespace {

QString qt(const std::string& text) { return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size())); }

QVariant bound(const Value& value)
{
    if (value.is_null()) {
        return QVariant(QMetaType(QMetaType::QString));
    }
    if (value.is_number_integer()) {
        return QVariant::fromValue<qlonglong>(value.get<std::int64_t>());
    }
    if (value.is_number()) {
        return value.get<double>();
    }
    const auto& text = value.get_ref<const std::string&>();
    if (text.find('\0') != std::string::npos) {
        throw InputError("a text", "a NUL character in it", "text; no database keeps that one");
    }
    return qt(text);
}

Rows value_of(const QVariant& cell)
{
    if (cell.isNull()) {
        return nullptr;
    }
    switch (cell.typeId()) {
    case QMetaType::Double:
        return cell.toDouble();
    case QMetaType::Int:
    case QMetaType::LongLong:
    case QMetaType::ULongLong: // so Qt gives a server's large numbers from 0 on
        return cell.toLongLong();
    default:
        return cell.toString().toStdString();
    }
}

Rows rows_of(QSqlQuery& query)
{
    auto rows = Rows::array();
    const auto record = query.record();
    std::vector<std::string> columns;
    for (int i = 0; i < record.count(); ++i) {
        columns.push_back(record.fieldName(i).toStdString());
    }
    while (query.next()) {
        Rows row = Rows::object();
        for (std::size_t i = 0; i < columns.size(); ++i) {
            row[columns[i]] = value_of(query.value(static_cast<int>(i)));
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

std::string first_line(const QSqlError& error)
{
    const auto text = error.databaseText().isEmpty() ? error.driverText() : error.databaseText();
    return text.isEmpty() ? "the connection is gone" : text.section('\n', 0, 0).toStdString();
}

/// Whether a rule of the tables said no, which it would say again: classes 22 (data), 23 (constraint), 54 (too long)
/// and P0 (trigger) of SQLSTATE, which has five letters, or SQLITE_CONSTRAINT, the last byte of its extended codes.
bool is_refused_row(const QSqlError& error)
{
    constexpr int kConstraint = 19, kLastByte = 0xFF, kStateLetters = 5;
    const auto code = error.nativeErrorCode();
    if (code.size() != kStateLetters) {
        return (code.toInt() & kLastByte) == kConstraint;
    }
    constexpr std::array classes{"22", "23", "54", "P0"};
    return std::any_of(classes.begin(), classes.end(), [&](const char* one) { return code.startsWith(one); });
}

[[noreturn]] void refuse(const std::string& shown, const QSqlError& error)
{
    constexpr const char* kExpected = "a register that can be used";
    if (is_refused_row(error)) {
        throw InputError(shown, "refused: " + first_line(error), kExpected);
    }
    throw NotUsableNow(shown, "refused: " + first_line(error), kExpected);
}

QSqlDatabase made(const std::string& place, const std::string& name)
{
    if (!is_server_url(place)) {
        std::error_code none;
        std::filesystem::create_directories(std::filesystem::path(place).parent_path(), none); // opening says it
        auto file = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), qt(name));
        file.setConnectOptions(QStringLiteral("QSQLITE_BUSY_TIMEOUT=10000"));
        file.setDatabaseName(qt(place));
        return file;
    }
    const auto settings = connection_settings(place);
    if (!QSqlDatabase::isDriverAvailable(QStringLiteral("QPSQL"))) {
        throw InputError(place, "this computer has no driver for it", "Qt's driver for PostgreSQL: libqt6sql6-psql");
    }
    auto server = QSqlDatabase::addDatabase(QStringLiteral("QPSQL"), qt(name));
    server.setConnectOptions(qt(settings));
    return server;
}

} // namespace

Database::Connection::~Connection() { QSqlDatabase::removeDatabase(qt(name)); }

Database Database::open(const std::string& place)
{
    static std::atomic<int> opened{0};
    const auto connection = std::shared_ptr<const Connection>(
        new Connection{"register-" + std::to_string(++opened), place, is_server_url(place)});
    std::error_code none;
    const bool was_left_open = std::filesystem::file_size(place + "-wal", none) > 0 && !none;
    if (auto database = made(place, connection->name); !database.open()) {
        throw NotUsableNow(place, "cannot be opened: " + first_line(database.lastError()),
                           connection->on_server ? "a server that answers, and a database and a role that it knows"
                                                 : "the register, or a place where it can be made");
    }
    Database database(connection);
    if (connection->on_server) {
        database.prepare_server();
    } else {
        database.prepare_file(was_left_open);
    }
    return database;
}

/// Going through all pages of a large file takes seconds: done where the last to use it did not close it (its log is
/// still there), and by damage() when somebody asks.
void Database::prepare_file(bool was_left_open) const
{
    constexpr std::uintmax_t kSmall = 32u << 20;
    std::error_code none;
    const auto size = std::filesystem::file_size(shown(), none);
    const bool is_small = none || size < kSmall;
    run("PRAGMA journal_mode = WAL");
    run("PRAGMA synchronous = FULL");
    run("PRAGMA foreign_keys = ON");
    run("PRAGMA cache_size = -65536"); // 64 MB: the newest verification of each of thousands of units
    if (const auto troubles = was_left_open || is_small ? damage() : std::vector<std::string>(); !troubles.empty()) {
        throw InputError(shown(), "is damaged: " + troubles.front(), "a whole register; put its backup in its place");
    }
}

/// A bench that hangs, or whose cable was pulled, gives the lock of the writers back.
void Database::prepare_server() const
{
    run("SET search_path = zeroline");
    run("SET client_min_messages = error");
    run("SET lock_timeout = '10s'");
    run("SET idle_in_transaction_session_timeout = '20s'");
}

Rows Database::run(const std::string& statement, const std::vector<Value>& values) const
{
    QSqlQuery query(QSqlDatabase::database(qt(connection_->name), false));
    query.setForwardOnly(true);
    // A server prepares no BEGIN and no CREATE: what has no values is run as it is.
    bool good = values.empty() ? query.exec(qt(statement)) : query.prepare(qt(statement));
    if (good && !values.empty()) {
        for (const auto& value : values) {
            query.addBindValue(bound(value));
        }
        good = query.exec();
    }
    auto rows = good ? rows_of(query) : Rows::array();
    if (!good || query.lastError().isValid()) { // Qt names no error where the connection is gone
        give_up_step();
        refuse(connection_->shown, query.lastError());
    }
    return rows;
}

/// A server does nothing more in a step that failed, not even let a prepared statement go.
void Database::give_up_step() const
{
    if (is_on_server()) {
        QSqlQuery(QSqlDatabase::database(qt(connection_->name), false)).exec(QStringLiteral("ROLLBACK"));
    }
}

void Database::insert(const std::string& table, const Value& row, const std::string& otherwise) const
{
    std::string columns, marks;
    std::vector<Value> values;
    for (const auto& [column, value] : row.items()) {
        columns += (columns.empty() ? "" : ", ") + column;
        marks += marks.empty() ? "?" : ", ?";
        values.push_back(value);
    }
    run("INSERT INTO " + table + " (" + columns + ") VALUES (" + marks + ")" +
            (otherwise.empty() ? "" : " ON CONFLICT " + otherwise),
        values);
}

void Database::between(const std::vector<std::string>& beginning, const std::function<void()>& work) const
{
    try {
        for (const auto& statement : beginning) {
            run(statement);
        }
        work();
        run("COMMIT");
    } catch (...) {
        try {
            run("ROLLBACK");
        } catch (const InputError&) { // the first trouble is the one to tell
        }
        throw;
    }
}

void Database::in_one_step(const std::function<void()>& work) const
{
    // The number of the lock is any one that all writers share.
    const std::vector<std::string> on_server{"BEGIN", "SELECT pg_advisory_xact_lock(2026112517)"};
    between(is_on_server() ? on_server : std::vector<std::string>{"BEGIN IMMEDIATE"}, work);
}

void Database::reading_one_moment(const std::function<void()>& work) const
{
    between({is_on_server() ? "BEGIN TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY" : "BEGIN"}, work);
}

std::vector<std::string> Database::damage() const
{
    std::vector<std::string> lines;
    if (is_on_server()) {
        return lines;
    }
    for (const auto& row : run("PRAGMA quick_check")) {
        if (const auto line = row.begin()->get<std::string>(); line != "ok") {
            lines.push_back(line);
        }
    }
    return lines;
}

} // namespace zeroline::unit_register
