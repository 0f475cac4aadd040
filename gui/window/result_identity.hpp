#pragma once

#include "gui/session/bench_session.hpp"

#include <QString>

#include <filesystem>

namespace zeroline::window {

/// Which order and unit, when, and who signed: on top of whatever is shown of a result. `folder` may be empty.
[[nodiscard]] QString identity_of(const session::RunResult& result, const std::filesystem::path& folder);

} // namespace zeroline::window
