#include "gui/register/database.hpp"

#include "acquisition/trace/input_error.hpp"

#include <QSqlDatabase>
#include <QSqlError>
#include <QSqlField>
#include <QSqlQuery>
#include <QSqlRecord>
#include <QString>
#include <QVariant>

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
    return value.is_number() ? QVariant(value.get<double>()) : QVariant(qt(value.get<std::string>()));
}

Value value_of(const QVariant& cell)
{
    if (cell.isNull()) {
        return nullptr;
    }
    switch (cell.typeId()) {
    case QMetaType::Double:
        return cell.toDouble();
    case QMetaType::Int:
    case QMetaType::LongLong:
        return cell.toLongLong();
    default:
        return cell.toString().toStdString();
    }
}

Rows rows_of(QSqlQuery& query)
{
    auto rows = Rows::array();
    const auto columns = query.record();
    while (query.next()) {
        Rows row = Rows::object();
        for (int i = 0; i < columns.count(); ++i) {
            row[columns.fieldName(i).toStdString()] = value_of(query.value(i));
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

std::string first_line(const QSqlError& error)
{
    const auto text = error.databaseText().isEmpty() ? error.driverText() : error.databaseText();
    return text.section('\n', 0, 0).toStdString();
}

} // namespace

Database::Connection::~Connection() { QSqlDatabase::removeDatabase(qt(name)); }

Database Database::open(const std::filesystem::path& file)
{
    static std::atomic<int> opened{0};
    const auto connection = std::make_shared<const Connection>("register-" + std::to_string(++opened), file.string());
    std::error_code none;
    std::filesystem::create_directories(file.parent_path(), none); // what is wrong with it, opening says
    {
        auto database = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), qt(connection->name));
        database.setConnectOptions(QStringLiteral("QSQLITE_BUSY_TIMEOUT=10000"));
        database.setDatabaseName(qt(file.string()));
        if (!database.open()) {
            throw InputError(file.string(), "cannot be opened: " + first_line(database.lastError()),
                             "the register, or a place where it can be made");
        }
    }
    Database database(connection);
    database.run("PRAGMA journal_mode = WAL");
    database.run("PRAGMA synchronous = FULL");
    database.run("PRAGMA foreign_keys = ON");
    if (const auto damage = database.damage(); !damage.empty()) {
        throw InputError(file.string(), "is damaged: " + damage.front(),
                         "a whole register; put its backup in its place");
    }
    return database;
}

Rows Database::run(const std::string& statement, const std::vector<Value>& values) const
{
    QSqlQuery query(QSqlDatabase::database(qt(connection_->name), false));
    query.setForwardOnly(true);
    bool good = query.prepare(qt(statement));
    for (const auto& value : values) {
        query.addBindValue(bound(value));
    }
    good = good && query.exec();
    auto rows = good ? rows_of(query) : Rows::array();
    if (query.lastError().isValid()) {
        throw InputError(connection_->shown, "refused: " + first_line(query.lastError()),
                         "a register that can be used");
    }
    return rows;
}

void Database::in_one_step(const std::function<void()>& work) const
{
    run("BEGIN IMMEDIATE");
    try {
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

std::vector<std::string> Database::damage() const
{
    std::vector<std::string> lines;
    for (const auto& row : run("PRAGMA quick_check")) {
        if (const auto line = row.begin()->get<std::string>(); line != "ok") {
            lines.push_back(line);
        }
    }
    return lines;
}

} // namespace zeroline::unit_register
