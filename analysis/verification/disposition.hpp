#pragma once

#include "acquisition/trace/json_reader.hpp"

#include <nlohmann/json_fwd.hpp>

#include <string>

namespace zeroline::verification {

/// What was done with the unit once its verdict was known, as somebody said it.
struct Disposition {
    enum class Unit { not_said, released, kept_out };
    Unit unit = Unit::not_said;
    std::string reason;      ///< why it is kept out; empty where it is not
    std::string loaner;      ///< kept out: number of the unit that stands in for it; empty: none was arranged
    std::string adjusted_by; ///< who adjusted it before this run; empty: nobody, or nobody said so
    bool authorised = false; ///< to adjust it

    [[nodiscard]] bool says_something() const { return unit != Unit::not_said || !adjusted_by.empty(); }
};

/// Throws trace::InputError with a JSON pointer.
[[nodiscard]] Disposition read_disposition(const trace::JsonReader& at);
/// The tree that read_disposition() reads back to the same.
[[nodiscard]] nlohmann::json to_json(const Disposition& disposition);

} // namespace zeroline::verification
