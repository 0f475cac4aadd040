#include "gui/session/saved_cycles.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/recheck.hpp"

namespace zeroline::session {

CycleOverlay saved_cycles(const std::filesystem::path& record, const std::string& preset)
{
    try {
        const auto evidence = records::load_record_evidence(record);
        return overlay(evidence.trace, records::assess(evidence).assessment, preset);
    } catch (const trace::InputError&) {
        return {}; // what is wrong with it is said where the record is checked
    }
}

std::vector<std::string> saved_presets(const std::filesystem::path& record)
{
    std::vector<std::string> names;
    try {
        for (const auto& preset : records::load_work_order(record / "order.json").meaning.presets) {
            names.push_back(preset.name);
        }
    } catch (const trace::InputError&) {
        return {}; // as above
    }
    return names;
}

} // namespace zeroline::session
