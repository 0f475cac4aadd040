#include "gui/session/checklist.hpp"

#include <QCoreApplication>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <iterator>
#include <utility>

namespace zeroline::session {

using verification::ChecklistItem;
using verification::Occasion;

namespace {

constexpr const char* kWords[] = {
    QT_TRANSLATE_NOOP("Checklist", "prescription complete and read back"),
    QT_TRANSLATE_NOOP("Checklist", "case"),
    QT_TRANSLATE_NOOP("Checklist", "cord and plug"),
    QT_TRANSLATE_NOOP("Checklist", "protection class and outlet"),
    QT_TRANSLATE_NOOP("Checklist", "intake filter"),
    QT_TRANSLATE_NOOP("Checklist", "hose"),
    QT_TRANSLATE_NOOP("Checklist", "interface"),
    QT_TRANSLATE_NOOP("Checklist", "label"),
    QT_TRANSLATE_NOOP("Checklist", "clock"),
    QT_TRANSLATE_NOOP("Checklist", "previous user's data erased"),
    QT_TRANSLATE_NOOP("Checklist", "same plateau on battery"),
    QT_TRANSLATE_NOOP("Checklist", "alarm on opening the plug"),
    QT_TRANSLATE_NOOP("Checklist", "filters"),
    QT_TRANSLATE_NOOP("Checklist", "seals"),
    QT_TRANSLATE_NOOP("Checklist", "alarms"),
    QT_TRANSLATE_NOOP("Checklist", "electrical safety"),
    QT_TRANSLATE_NOOP("Checklist", "strength under flow"),
    QT_TRANSLATE_NOOP("Checklist", "battery duration"),
    QT_TRANSLATE_NOOP("Checklist", "outlet"),
    QT_TRANSLATE_NOOP("Checklist", "on a hard surface"),
    QT_TRANSLATE_NOOP("Checklist", "made safe and kept out of use"),
    QT_TRANSLATE_NOOP("Checklist", "instrument check"),
};

} // namespace

std::vector<std::string> checklist_of(Occasion occasion)
{
    return verification::checklist_items(records::load_procedure(verification::word_of(occasion)).meaning);
}

std::vector<std::string> checklist_of(Occasion occasion,
                                      const std::optional<records::Read<verification::Procedure>>& procedure)
{
    auto items = checklist_of(occasion);
    if (procedure) {
        for (auto& item : verification::checklist_items(procedure->meaning)) {
            if (std::find(items.begin(), items.end(), item) == items.end()) {
                items.push_back(std::move(item));
            }
        }
    }
    return items;
}

QString checklist_words(const std::string& item)
{
    const auto* const known =
        std::find_if(std::begin(kWords), std::end(kWords), [&](const char* word) { return item == word; });
    return known != std::end(kWords) ? QCoreApplication::translate("Checklist", *known) : QString::fromStdString(item);
}

namespace {

std::optional<Occasion> occasion_named(const QString& word)
{
    for (const auto occasion : {Occasion::pre_delivery, Occasion::periodic, Occasion::home_visit}) {
        if (word == QString::fromStdString(verification::word_of(occasion))) {
            return occasion;
        }
    }
    return std::nullopt;
}

} // namespace

std::vector<std::string> not_answered(const RecordTree& record)
{
    const auto occasion = occasion_named(record.text("/order/occasion"));
    if (!record.at("/run").is_object() || !occasion) {
        return {};
    }
    const auto& answers = record.at("/run/checklist");
    auto open = checklist_of(*occasion);
    std::erase_if(open, [&](const std::string& item) {
        return answers.is_array() && std::any_of(answers.begin(), answers.end(), [&](const auto& answer) {
                   return answer.value("item", std::string()) == item;
               });
    });
    return open;
}

bool has_item(const std::vector<ChecklistItem>& checklist, const std::string& item)
{
    return std::any_of(checklist.begin(), checklist.end(), [&](const ChecklistItem& one) { return one.item == item; });
}

void note_item(std::vector<ChecklistItem>& checklist, ChecklistItem item)
{
    const auto same = std::find_if(checklist.begin(), checklist.end(),
                                   [&](const ChecklistItem& one) { return one.item == item.item; });
    if (same != checklist.end()) {
        *same = std::move(item);
    } else {
        checklist.push_back(std::move(item));
    }
}

} // namespace zeroline::session
