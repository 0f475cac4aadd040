#include "gui/session/judgement_model.hpp"

#include "gui/session/shown_number.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace zeroline::session {

using metrology::Outcome;
using verification::Judgement;

namespace {

Judgement prescribed_only(const std::string& measurand, const std::string& preset, const char* unit, double value)
{
    Judgement judgement;
    judgement.measurand = measurand;
    judgement.preset = preset;
    judgement.against = "prescribed";
    judgement.unit = unit;
    judgement.prescribed = value;
    return judgement;
}

bool is_display(const Judgement& judgement) { return judgement.measurand.starts_with("displayed-"); }

/// The plateau of the newest manual hold, for a row that has no judged cycle yet.
std::optional<double> held_by_hand(const verification::Assessment& assessment, const Judgement& judgement)
{
    const bool up = judgement.measurand == "insufflation-pressure";
    if (!up && judgement.measurand != "exsufflation-pressure") {
        return std::nullopt;
    }
    for (auto cycle = assessment.cycles.rbegin(); cycle != assessment.cycles.rend(); ++cycle) {
        const auto& phase = up ? cycle->insufflation : cycle->exsufflation;
        if (cycle->preset == judgement.preset && phase && phase->plateau) {
            return phase->plateau->value_cmH2O;
        }
    }
    return std::nullopt;
}

/// Two figures that count, as uncertainties are stated (JCGM 100:2008, 7.2.6).
QString two_figures(double value)
{
    const int decimals = value > 0.0 ? std::clamp(1 - static_cast<int>(std::floor(std::log10(value))), 0, 6) : 1;
    return shown(value, decimals);
}

} // namespace

std::vector<JudgementModel::Column> JudgementModel::bench_columns()
{
    return {measurand, prescribed, displayed, mean, verdict};
}

std::vector<JudgementModel::Column> JudgementModel::result_columns()
{
    return {measurand, prescribed, set, displayed, mean, worst, limits, verdict, basis};
}

std::vector<JudgementModel::Column> JudgementModel::detail_columns()
{
    return {measurand, mean, worst, limits, verdict, cycles, uncertainty, coverage, ratio, probability, basis};
}

JudgementModel::JudgementModel(std::vector<Column> columns, QObject* parent)
    : QAbstractTableModel(parent), columns_(std::move(columns))
{
}

void JudgementModel::set_columns(std::vector<Column> columns)
{
    beginResetModel();
    columns_ = std::move(columns);
    endResetModel();
}

void JudgementModel::begin(const verification::WorkOrder& order, const std::string& preset)
{
    std::vector<Row> rows;
    several_presets_ = preset.empty() && order.presets.size() > 1;
    for (const auto& one : order.presets) {
        if (!preset.empty() && one.name != preset) {
            continue;
        }
        const auto add = [&](const char* measurand_code, const char* unit, double value) {
            rows.push_back({prescribed_only(measurand_code, one.name, unit, value), {}});
        };
        add("insufflation-pressure", "cmH2O", one.insufflation.pressure_cmH2O);
        add("exsufflation-pressure", "cmH2O", one.exsufflation.pressure_cmH2O);
        add("insufflation-duration", "s", one.insufflation.duration_s);
        add("exsufflation-duration", "s", one.exsufflation.duration_s);
        if (one.pause.duration_s > 0.0) {
            add("pause-duration", "s", one.pause.duration_s);
        }
    }
    cycles_needed_ = 0;
    take(std::move(rows));
}

void JudgementModel::show(const verification::Assessment& assessment, const std::string& preset, int cycles_needed)
{
    std::vector<Row> rows;
    std::string first;
    several_presets_ = false;
    cycles_needed_ = cycles_needed;
    for (const auto& judgement : assessment.judgements) {
        first = first.empty() ? judgement.preset : first;
        several_presets_ = several_presets_ || judgement.preset != first;
        const bool live = cycles_needed > 0;
        if ((preset.empty() || judgement.preset == preset) && !(live && is_display(judgement))) {
            rows.push_back({judgement, live ? held_by_hand(assessment, judgement) : std::nullopt});
        }
    }
    several_presets_ = several_presets_ && preset.empty();
    take(std::move(rows));
}

void JudgementModel::take(std::vector<Row> rows)
{
    // Rows that stay keep their place, so that a screen reader and a scrolled view are not thrown back.
    if (rows.size() == rows_.size() && !rows.empty()) {
        rows_ = std::move(rows);
        Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
        return;
    }
    beginResetModel();
    rows_ = std::move(rows);
    endResetModel();
}

int JudgementModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int JudgementModel::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(columns_.size());
}

QVariant JudgementModel::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole || section < 0 || section >= columnCount()) {
        return {};
    }
    switch (columns_[static_cast<std::size_t>(section)]) {
    case measurand:
        return tr("measurand");
    case prescribed:
        return narrow() ? tr("prescr.") : tr("prescribed");
    case set:
        return tr("set");
    case displayed:
        return narrow() ? tr("displ.") : tr("displayed");
    case mean:
        return narrow() ? tr("meas.") : tr("mean");
    case worst:
        return tr("worst");
    case limits:
        return tr("limits");
    case verdict:
        return tr("verdict");
    case basis:
        return tr("source of the limits");
    case cycles:
        return tr("cycles");
    case uncertainty:
        return tr("U (95.45 %)");
    case coverage:
        return tr("k");
    case ratio:
        return tr("ratio");
    case probability:
        return tr("probability outside");
    }
    return {};
}

bool JudgementModel::narrow() const { return columns_.size() == bench_columns().size(); }

bool JudgementModel::on_its_way(const Row& row) const
{
    return cycles_needed_ > 0 && row.judgement.n > 0 && row.judgement.reason &&
           row.judgement.reason->code == "too-few-cycles";
}

QString JudgementModel::name(const Row& row) const
{
    auto text = measurand_name(row.judgement.measurand);
    if (row.judgement.against == "set") {
        text = tr("%1, as set").arg(text);
    }
    text = tr("%1 in %2").arg(text, QString::fromStdString(row.judgement.unit));
    return several_presets_ ? QString::fromStdString(row.judgement.preset) + QStringLiteral(": ") + text : text;
}

QString JudgementModel::verdict_text(const Row& row) const
{
    const bool nothing_yet = row.judgement.n == 0 && !row.judgement.critical;
    const bool waits = row.judgement.reason && row.judgement.reason->code == "too-few-cycles";
    if (cycles_needed_ > 0 && nothing_yet && (waits || row.judgement.verdict == Outcome::incomplete)) {
        return row.by_hand ? tr("by hand") : QString();
    }
    if (row.judgement.verdict == Outcome::not_judged && !row.judgement.mean) {
        return {};
    }
    if (on_its_way(row)) {
        return tr("%1 %2 of %3")
            .arg(sign_of(Tone::pass), QString::number(row.judgement.n), QString::number(cycles_needed_));
    }
    const auto tone_now = tone(row);
    const auto word = row.judgement.critical ? tr("%1, critical").arg(outcome_word(row.judgement.verdict))
                                             : outcome_word(row.judgement.verdict);
    return sign_of(tone_now) + u' ' + word;
}

Tone JudgementModel::tone(const Row& row) const
{
    if (on_its_way(row)) {
        return Tone::pass;
    }
    if (cycles_needed_ > 0 && row.judgement.n == 0 && row.judgement.verdict == Outcome::incomplete) {
        return Tone::none;
    }
    return tone_of(row.judgement.verdict, row.judgement.critical);
}

QString JudgementModel::text(const Row& row, Column column) const
{
    const auto& judgement = row.judgement;
    const auto figure = [](const std::optional<double>& value, int decimals) {
        return value ? shown(*value, decimals) : QStringLiteral("\u2013");
    };
    switch (column) {
    case measurand:
        return name(row);
    case prescribed:
        return given_text(judgement, judgement.prescribed);
    case set:
        return given_text(judgement, judgement.set);
    case displayed:
        return given_text(judgement, judgement.displayed);
    case mean:
        return measured_text(judgement, judgement.mean ? judgement.mean : row.by_hand);
    case worst:
        return measured_text(judgement, judgement.worst);
    case limits:
        return limits_text(judgement);
    case verdict:
        return verdict_text(row);
    case basis:
        return QString::fromStdString(judgement.basis);
    case cycles:
        return QString::number(judgement.n);
    case uncertainty:
        return judgement.expanded_uncertainty ? two_figures(*judgement.expanded_uncertainty) : QStringLiteral("\u2013");
    case coverage:
        return figure(judgement.coverage_factor, 2);
    case ratio:
        return figure(judgement.ratio, 1);
    case probability:
        return judgement.probability_outside ? shown(100.0 * *judgement.probability_outside, 1) + QStringLiteral(" %")
                                             : QStringLiteral("\u2013");
    }
    return {};
}

QVariant JudgementModel::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) {
        return {};
    }
    const auto& row = rows_[static_cast<std::size_t>(index.row())];
    const auto column = columns_[static_cast<std::size_t>(index.column())];
    const bool is_text = column == measurand || column == basis || column == verdict;
    switch (role) {
    case Qt::DisplayRole:
    case Qt::AccessibleTextRole:
        return text(row, column);
    case Qt::ToolTipRole:
        return column == verdict && row.judgement.reason ? sentence_of(row.judgement) : text(row, column);
    case Qt::TextAlignmentRole:
        return QVariant::fromValue(Qt::Alignment(Qt::AlignVCenter | (is_text ? Qt::AlignLeft : Qt::AlignRight)));
    case ToneRole:
        return column == verdict ? static_cast<int>(tone(row)) : static_cast<int>(Tone::none);
    default:
        return {};
    }
}

} // namespace zeroline::session
