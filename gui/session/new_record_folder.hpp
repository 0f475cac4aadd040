#pragma once

#include "analysis/verification/work_order.hpp"

#include <QString>

#include <filesystem>

namespace zeroline::session {

/// A name for a record that sorts by day and fits every file system: "2026-11-25-0912-RC-0117-WO-2041", with a number
/// behind it where such a folder (or .part) is there already.
[[nodiscard]] std::filesystem::path new_record_folder(const std::filesystem::path& parent,
                                                      const verification::WorkOrder& order, const QString& stamp);

} // namespace zeroline::session
