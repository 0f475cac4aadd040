#include "gui/window/result_identity.hpp"

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/visible_text.hpp"
#include "gui/print/seal_remarks.hpp"
#include "gui/records/bench_file.hpp"
#include "gui/records/folder_check.hpp"
#include "gui/records/key_list.hpp"

#include <QCoreApplication>
#include <QDateTime>
#include <QStringList>

namespace zeroline::window {

namespace {

struct ResultIdentity {
    Q_DECLARE_TR_FUNCTIONS(ResultIdentity)
};

/// Those who signed it, by name.
QString signers_of(const std::filesystem::path& folder)
{
    QStringList names;
    try {
        for (const auto& signature : print::signatures_of(records::OpenFolder::at(folder))) {
            names << QString::fromStdString(signature.name);
        }
    } catch (const trace::InputError&) {
        return {}; // that it is not intact is said by the banner
    }
    return names.join(QStringLiteral(", "));
}

} // namespace

QString identity_of(const session::RunResult& result, const std::filesystem::path& folder)
{
    const auto& order = result.evidence.order.meaning;
    QStringList parts{QString::fromStdString(order.work_order), QString::fromStdString(order.unit.asset)};
    if (result.evidence.run && !result.evidence.run->meaning.began.empty()) {
        const auto began =
            QDateTime::fromString(QString::fromStdString(result.evidence.run->meaning.began), Qt::ISODate);
        parts << began.toString(QStringLiteral("yyyy-MM-dd HH:mm"));
    }
    const auto signers = signers_of(folder);
    parts << (signers.isEmpty() ? ResultIdentity::tr("not signed") : ResultIdentity::tr("signed by %1").arg(signers));
    const auto line = parts.join(QStringLiteral(" \u00B7 ")).toStdString();
    return QString::fromStdString(trace::visible_on_one_line(line));
}

QString words_about_seal(const std::filesystem::path& folder)
{
    const auto check = records::check_folder(folder);
    if (!check.sealed) {
        return ResultIdentity::tr("DRAFT: never sealed. It is evidence of nothing.");
    }
    if (!check.troubles.empty()) {
        return ResultIdentity::tr(
                   "NOT INTACT: %1. What is shown is computed from the files as they are now, not as they were sealed.")
            .arg(QString::fromStdString(trace::visible_on_one_line(check.troubles.front())));
    }
    const auto known = records::own_keys(records::key_file(records::usual_bench_file()));
    if (known.name_of(check.public_key).empty()) {
        return ResultIdentity::tr("KEY NOT KNOWN: sealed by a key that is not in the list of this bench.");
    }
    const auto against = known.against(check.public_key, check.signature.time);
    return against.empty() ? QString()
                           : ResultIdentity::tr("NOT INTACT: the key %1.").arg(QString::fromStdString(against));
}

} // namespace zeroline::window
