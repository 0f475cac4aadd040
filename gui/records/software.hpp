#pragma once

#include "analysis/record/record.hpp"

namespace zeroline::records {

/// Version and build of this program, as every record names them: the build is compiler and commit.
[[nodiscard]] const record::Software& this_software();

} // namespace zeroline::records
