#include "analysis/verification/disposition.hpp"

#include <nlohmann/json.hpp>

namespace zeroline::verification {

Disposition read_disposition(const trace::JsonReader& at)
{
    at.object_with_only({"unit", "reason", "loaner", "adjusted_by", "authorised"});
    Disposition said;
    if (const auto unit = at.find("unit")) {
        said.unit =
            unit->one_of({"released", "kept-out"}) == 0 ? Disposition::Unit::released : Disposition::Unit::kept_out;
    }
    if (said.unit == Disposition::Unit::kept_out) {
        said.reason = at.at("reason").filled_text();
    }
    for (const auto* key : {"reason", "loaner"}) {
        if (at.has(key) && said.unit != Disposition::Unit::kept_out) {
            at.at(key).refuse(at.at(key).tree().dump(), "it beside \"unit\": \"kept-out\" only");
        }
    }
    if (const auto loaner = at.find("loaner")) {
        said.loaner = loaner->filled_text();
    }
    if (const auto by = at.find("adjusted_by")) {
        said.adjusted_by = by->filled_text();
    }
    if (const auto authorised = at.find("authorised")) {
        said.authorised = authorised->boolean();
        (void)at.at("adjusted_by"); // who?
    }
    return said;
}

nlohmann::json to_json(const Disposition& said)
{
    auto tree = nlohmann::json::object();
    if (said.unit != Disposition::Unit::not_said) {
        tree["unit"] = said.unit == Disposition::Unit::released ? "released" : "kept-out";
    }
    const auto put = [&](const char* key, const std::string& text) {
        if (!text.empty()) {
            tree[key] = text;
        }
    };
    put("reason", said.reason);
    put("loaner", said.loaner);
    put("adjusted_by", said.adjusted_by);
    if (!said.adjusted_by.empty()) {
        tree["authorised"] = said.authorised;
    }
    return tree;
}

} // namespace zeroline::verification
