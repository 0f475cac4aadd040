#pragma once

// Where a test's register is: a file of its own, or, where ZEROLINE_TEST_SERVER names a PostgreSQL server
// (postgresql.py starts one), a new database there. So the same tests run on both.

#include "gui/register/database.hpp"

#include <cstdlib>
#include <filesystem>
#include <string>
#include <unistd.h>

namespace zeroline::unit_register {

inline std::string test_server()
{
    const char* server = std::getenv("ZEROLINE_TEST_SERVER");
    return server == nullptr ? std::string() : server;
}

class RegisterPlace {
public:
    explicit RegisterPlace(const std::filesystem::path& file) : place_(file.string())
    {
        if (const auto server = test_server(); !server.empty()) {
            static int made = 0;
            const auto name = "test_" + std::to_string(::getpid()) + "_" + std::to_string(++made);
            Database::open(server + "/postgres").run("CREATE DATABASE " + name);
            place_ = server + "/" + name;
        }
    }
    operator std::string() const { return place_; }

private:
    std::string place_;
};

} // namespace zeroline::unit_register
