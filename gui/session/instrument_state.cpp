#include "gui/session/instrument_state.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/instrument_checks.hpp"
#include "gui/session/checklist.hpp"
#include "gui/session/run_words.hpp"

namespace zeroline::session {

using verification::ChecklistItem;

namespace {

/// The instrument of a virtual bench is what its certificate says.
std::string caution_of(const std::optional<ChecklistItem>& item, bool simulated)
{
    if (!item && simulated) {
        return {};
    }
    if (!item) {
        return said(Run::tr("This instrument was never checked against a second gauge: away from zero its certificate "
                            "is trusted. 'zeroline check-instrument' checks it."));
    }
    const auto remark = QString::fromStdString(item->remark);
    switch (item->outcome) {
    case ChecklistItem::Outcome::ok:
        return {};
    case ChecklistItem::Outcome::not_applicable:
        return said(Run::tr("The check of the instrument against a second gauge is %1.").arg(remark));
    case ChecklistItem::Outcome::not_ok:
        break;
    }
    return said(
        Run::tr("The instrument was not in order at its last check, %1: the verdict will be incomplete.").arg(remark));
}

} // namespace

InstrumentState instrument_state(const std::filesystem::path& instrument_file, const std::string& day, bool simulated)
{
    auto item = verification::item_of(records::load_instrument_checks(instrument_file), day, simulated);
    auto caution = caution_of(item, simulated);
    return {std::move(item), std::move(caution)};
}

CheckKeeper check_keeper(const std::filesystem::path& file, const trace::Instrument& instrument,
                         const unit_register::Bench& bench)
{
    return
        [file, bench, name = instrument.name, serial = instrument.serial](const verification::InstrumentCheck& check) {
            if (file.empty()) {
                return std::string();
            }
            try {
                auto all = records::load_instrument_checks(file);
                all.instrument = name;
                all.serial = serial;
                records::append_instrument_check(file, std::move(all), check);
                unit_register::expect_record(bench, records::checks_file(file));
                return std::string();
            } catch (const trace::InputError& error) {
                return std::string(error.what());
            }
        };
}

void note_instrument(std::vector<ChecklistItem>& checklist, const InstrumentState& state)
{
    if (state.item && !has_item(checklist, state.item->item)) {
        note_item(checklist, *state.item);
    }
}

} // namespace zeroline::session
