#pragma once

#include "acquisition/trace/input_error.hpp"

#include <functional>
#include <string>

namespace zeroline::records {

/// What `act` says against its input, or "no trouble".
inline std::string trouble(const std::function<void()>& act)
{
    try {
        act();
    } catch (const trace::InputError& error) {
        return error.what();
    }
    return "no trouble";
}

} // namespace zeroline::records
