#pragma once

#include <string>

namespace zeroline::unit_register {

/// Whether a register's place is a PostgreSQL server: it begins with postgresql:// or postgres://.
[[nodiscard]] bool is_server_url(const std::string& place);

/// The URL as keywords and values of libpq ("PostgreSQL documentation", 34.1.1): host, port, user, dbname, then the
/// parameters after `?`, such as sslmode. What it leaves out, libpq takes from its environment and files. Throws
/// trace::InputError: no such URL, or a password in it.
[[nodiscard]] std::string connection_settings(const std::string& url);

} // namespace zeroline::unit_register
