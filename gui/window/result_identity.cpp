#include "gui/window/result_identity.hpp"

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/visible_text.hpp"
#include "gui/print/seal_remarks.hpp"

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

} // namespace zeroline::window
