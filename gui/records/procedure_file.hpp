#pragma once

#include "analysis/verification/procedure.hpp"
#include "gui/records/evidence_files.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace zeroline::records {

/// A procedure that the program carries in itself; gui/procedures holds the same bytes.
struct ShippedProcedure {
    std::string_view name; ///< "guided", "pre-delivery", "periodic", "home-visit"
    std::string_view text;
};
[[nodiscard]] const std::vector<ShippedProcedure>& shipped_procedures();

/// None where the program carries none of that name.
[[nodiscard]] const ShippedProcedure* shipped_procedure(std::string_view name);
[[nodiscard]] std::string names_of_shipped_procedures(); ///< "guided, home-visit, ..."

/// A shipped one by its name, or else a file. Throws trace::InputError naming file and place.
[[nodiscard]] Read<verification::Procedure> load_procedure(const std::string& name_or_file);

/// The procedure of a run: the one chosen, by its name or its file; where none is, the department's own for the
/// occasion of the order. None: the guided run. Throws trace::InputError, also where it is for another occasion: what
/// is done with the unit at the end goes by the order, and would be right for another place.
[[nodiscard]] std::optional<Read<verification::Procedure>>
procedure_of_run(const std::string& chosen, const std::optional<std::filesystem::path>& bench_file,
                 verification::Occasion occasion);

/// The procedure that the department keeps for an occasion: procedures/OCCASION.json beside the bench file. None where
/// no such file is there. Throws trace::InputError where it cannot be read.
[[nodiscard]] std::optional<Read<verification::Procedure>>
own_procedure(const std::optional<std::filesystem::path>& bench_file, verification::Occasion occasion);

namespace name {
inline const std::string procedure = "procedure.json"; ///< of a record: what the run went by
}

} // namespace zeroline::records
