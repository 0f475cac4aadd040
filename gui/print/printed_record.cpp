#include "gui/print/printed_record.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/print/seal_remarks.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/procedure_file.hpp"
#include "gui/records/recheck.hpp"

#include <QCryptographicHash>

#include <algorithm>
#include <utility>

namespace zeroline::print {

namespace fs = std::filesystem;
using nlohmann::json;
using trace::InputError;

namespace {

/// A record that was never sealed has no number of its own: order and attempt stand in for it.
QString number_of(const PrintedRecord& record)
{
    const auto number = record.text("/issue/record_number");
    if (!number.isEmpty()) {
        return number;
    }
    return record.text("/order/work_order") + "-" +
           QString::number(static_cast<int>(record.figure("/attempt").value_or(1.0)));
}

/// Who issued it: as the record itself says, else as the bench file beside it does.
void take_issuer(PrintedRecord& record, const records::LoadedEvidence& evidence)
{
    record.organisation = record.text("/issue/organisation");
    record.address = record.text("/issue/address");
    if (!evidence.bench) {
        return;
    }
    const auto& bench = evidence.bench->meaning;
    record.interval_months = bench.interval_months;
    if (record.organisation.isEmpty()) {
        record.organisation = QString::fromStdString(bench.organisation);
        record.address = QString::fromStdString(bench.address);
    }
}

QString procedure_of(const records::OpenFolder& folder)
{
    if (!folder.has_file(records::name::procedure)) {
        return {};
    }
    const auto tree = folder.json(records::name::procedure);
    return QString::fromStdString(tree.value("name", "")) + ", revision " +
           QString::fromStdString(tree.value("revision", ""));
}

/// record.json and what is read from it alone.
PrintedRecord load_tree(const records::OpenFolder& folder)
{
    const auto file = folder.shown(records::name::record);
    const auto bytes = folder.read(records::name::record);
    PrintedRecord record;
    records::reading(file, [&] { record = PrintedRecord(records::parse_json(bytes)); });
    record.record_json = QByteArray::fromStdString(bytes);
    record.sha256 =
        QString::fromLatin1(QCryptographicHash::hash(record.record_json, QCryptographicHash::Sha256).toHex());
    record.number = number_of(record);
    record.signatures = signatures_of(folder);
    record.attempt = records::kept_attempt(folder);
    record.procedure = procedure_of(folder);
    const auto held = records::held_folder(record.text("/issue/earlier/relation").toStdString());
    if (!held.empty()) {
        record.before = std::make_shared<const PrintedRecord>(load_tree(folder.folder(held)));
    }
    return record;
}

} // namespace

PrintedRecord::PrintedRecord(json tree)
    : RecordTree(std::move(tree)), result(session::result_view(*this, session::Reader::paper)),
      presets(RecordTree::presets()), judgements(RecordTree::judgements()), cycles(RecordTree::cycles()),
      spans(RecordTree::spans())
{
}

QString PrintedRecord::answers_for_it() const
{
    return signatures.empty() ? text("/run/operator") : QString::fromStdString(signatures.front().name);
}

bool PrintedRecord::left_otherwise() const
{
    return std::any_of(result.reasons.begin(), result.reasons.end(),
                       [](const auto& reason) { return reason.code == QLatin1String("left-otherwise"); });
}

QString PrintedRecord::across() const
{
    return QStringList({draft ? QString("DRAFT") : QString(), simulated() ? QString("SIMULATED") : QString()})
        .join(' ')
        .trimmed();
}

PrintedRecord load_printed_record(const fs::path& folder)
{
    const auto opened = records::OpenFolder::at(folder);
    const auto check = records::check_to_show(opened);
    auto evidence = records::load_record_evidence(opened);
    auto record = load_tree(opened);
    constexpr std::size_t largest_trace = std::size_t{1} << 31;
    record.draft = !check.sealed;
    record.trace_csv = QByteArray::fromStdString(opened.read(records::name::trace, largest_trace));
    record.trace = std::move(evidence.trace);
    take_issuer(record, evidence);
    record.corrections = corrections_of(opened);
    return record;
}

} // namespace zeroline::print
