#pragma once

#include "gui/session/bench_session.hpp"

#include <QString>

#include <filesystem>

namespace zeroline::window {

/// Which order and unit, when, and who signed: on top of whatever is shown of a result. `folder` may be empty.
[[nodiscard]] QString identity_of(const session::RunResult& result, const std::filesystem::path& folder);

/// What stands above a record that is not what it was sealed as, or was never sealed; empty where all is well.
[[nodiscard]] QString words_about_seal(const std::filesystem::path& folder);

} // namespace zeroline::window
