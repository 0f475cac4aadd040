#include "gui/register/server_url.hpp"

#include "acquisition/trace/input_error.hpp"

#include <QUrl>
#include <QUrlQuery>

#include <algorithm>
#include <cstdlib>

namespace zeroline::unit_register {

using trace::InputError;

namespace {

constexpr const char* kExpected = "a URL such as postgresql://writer@server.example/zeroline?sslmode=verify-full";

/// As libpq reads a value: in quotes, with quotes and backslashes escaped. Qt would break a value at a semicolon.
std::string setting(const std::string& key, const std::string& value)
{
    if (value.find(';') != std::string::npos || value.find('\0') != std::string::npos) {
        throw InputError("register", "a semicolon in the value of '" + key + "'", kExpected);
    }
    std::string quoted;
    for (const char letter : value) {
        quoted += letter == '\'' || letter == '\\' ? std::string{'\\', letter} : std::string{letter};
    }
    return key + "='" + quoted + "' ";
}

void refuse_password(const QUrl& url, const QUrlQuery& parameters)
{
    const bool has_one = url.userInfo(QUrl::FullyEncoded).contains(':') || parameters.hasQueryItem("password") ||
                         parameters.hasQueryItem("sslpassword");
    if (has_one) {
        throw InputError("register", "a password in the URL",
                         "none: files and lists of processes show it; ~/.pgpass or PGPASSFILE holds it");
    }
}

/// A server that does not answer holds nobody up for long, unless somebody chose otherwise.
std::string usual_settings()
{
    const std::string usual = "fallback_application_name='zeroline' tcp_user_timeout='15000' ";
    return std::getenv("PGCONNECT_TIMEOUT") == nullptr ? usual + "connect_timeout='5' " : usual;
}

std::string parameters_of(const QUrlQuery& query)
{
    std::string settings;
    for (const auto& [key, value] : query.queryItems(QUrl::FullyDecoded)) {
        const bool is_name = !key.isEmpty() && std::all_of(key.begin(), key.end(), [](QChar letter) {
            return (letter >= 'a' && letter <= 'z') || letter == '_';
        });
        if (!is_name) {
            throw InputError("register", "the parameter '" + key.toStdString() + "'", kExpected);
        }
        settings += setting(key.toStdString(), value.toStdString());
    }
    return settings;
}

} // namespace

bool is_server_url(const std::string& place)
{
    return place.starts_with("postgresql://") || place.starts_with("postgres://");
}

std::string connection_settings(const std::string& text)
{
    const QUrl url(QString::fromStdString(text), QUrl::StrictMode);
    const QUrlQuery query(url);
    refuse_password(url, query);
    if (!url.isValid() || url.hasFragment()) {
        throw InputError("register", "no URL that can be read", kExpected);
    }
    auto settings = usual_settings();
    const auto add = [&](const char* key, const QString& value) {
        settings += value.isEmpty() ? std::string() : setting(key, value.toStdString());
    };
    add("host", url.host());
    add("port", url.port() > 0 ? QString::number(url.port()) : QString());
    add("user", url.userName(QUrl::FullyDecoded));
    add("dbname", url.path(QUrl::FullyDecoded).mid(1));
    return settings + parameters_of(query);
}

} // namespace zeroline::unit_register
