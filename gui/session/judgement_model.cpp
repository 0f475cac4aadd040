#include "gui/session/judgement_model.hpp"

#include <algorithm>
#include <utility>

namespace zeroline::session {

using metrology::Outcome;
using verification::MeasurandKind;
using verification::Preset;

namespace {

/// What is known of a row before anything was measured.
ResultRow prescribed_only(const std::string& measurand, const Preset& preset, double value)
{
    JudgementRow row;
    row.measurand = QString::fromStdString(measurand);
    row.preset = QString::fromStdString(preset.name);
    row.against = QStringLiteral("prescribed");
    row.unit = QString::fromStdString(row.known().unit);
    row.prescribed = value;
    return result_row(row, Reader::screen);
}

/// The plateau of the newest manual hold, for a row that has no judged cycle yet.
std::optional<QString> held_by_hand(const std::vector<verification::Cycle>& cycles, const JudgementRow& row)
{
    if (row.known().kind != MeasurandKind::pressure) {
        return std::nullopt;
    }
    const bool up = row.known().phase == signal::PhaseKind::insufflation;
    for (auto cycle = cycles.rbegin(); cycle != cycles.rend(); ++cycle) {
        const auto& phase = up ? cycle->insufflation : cycle->exsufflation;
        if (cycle->preset == row.preset.toStdString() && phase && phase->plateau) {
            return ResultWords(Reader::screen).measured(row, phase->plateau->value_cmH2O);
        }
    }
    return std::nullopt;
}

/// A head stands where its column stands.
QVariant alignment(JudgementModel::Column column)
{
    const bool is_text =
        column == JudgementModel::measurand || column == JudgementModel::basis || column == JudgementModel::verdict;
    return QVariant::fromValue(Qt::Alignment(Qt::AlignVCenter | (is_text ? Qt::AlignLeft : Qt::AlignRight)));
}

bool not_run_at_yet(const JudgementRow& row) { return row.against == QLatin1String("set") && !row.mean; }

bool waits_for_cycles(const JudgementRow& row) { return row.reason_code == QLatin1String("too-few-cycles"); }

} // namespace

std::vector<JudgementModel::Column> JudgementModel::bench_columns()
{
    return {measurand, prescribed, set, displayed, mean, verdict};
}

std::vector<JudgementModel::Column> JudgementModel::result_columns()
{
    return {measurand, prescribed, set, displayed, mean, worst, limits, verdict, basis};
}

std::vector<JudgementModel::Column> JudgementModel::detail_columns()
{
    return {measurand, prescribed, set,         displayed, mean,  worst,       limits,
            verdict,   cycles,     uncertainty, coverage,  ratio, probability, basis};
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
        const auto add = [&](const std::string& measurand_code, double value) {
            rows.push_back({prescribed_only(measurand_code, one, value), {}});
        };
        add(verification::measurand::insufflation_pressure, one.insufflation.pressure_cmH2O);
        add(verification::measurand::exsufflation_pressure, one.exsufflation.pressure_cmH2O);
        add(verification::measurand::insufflation_duration, one.insufflation.duration_s);
        add(verification::measurand::exsufflation_duration, one.exsufflation.duration_s);
        if (one.pause.duration_s > 0.0) {
            add(verification::measurand::pause_duration, one.pause.duration_s);
        }
    }
    cycles_needed_ = 0;
    take(std::move(rows));
}

void JudgementModel::show(const ResultView& result, const std::string& preset) { show_live(result, {}, preset, 0); }

void JudgementModel::show_live(const ResultView& result, const std::vector<verification::Cycle>& so_far,
                               const std::string& preset, int cycles_needed)
{
    const auto wanted = QString::fromStdString(preset);
    const bool live = cycles_needed > 0;
    std::vector<Row> rows;
    several_presets_ = wanted.isEmpty() && result.presets.size() > 1;
    cycles_needed_ = cycles_needed;
    for (const auto& row : result.rows) {
        const bool waits = live && (row.is.known().kind == MeasurandKind::displayed || not_run_at_yet(row.is));
        if ((wanted.isEmpty() || row.is.preset == wanted) && !waits) {
            rows.push_back({row, live ? held_by_hand(so_far, row.is) : std::nullopt});
        }
    }
    take(std::move(rows));
}

void JudgementModel::take(std::vector<Row> rows)
{
    const bool by_hand = std::any_of(rows.begin(), rows.end(), [](const Row& row) { return row.by_hand.has_value(); });
    if (std::exchange(by_hand_, by_hand) != by_hand) {
        Q_EMIT headerDataChanged(Qt::Horizontal, 0, columnCount() - 1);
    }
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
    if (orientation != Qt::Horizontal || section < 0 || section >= columnCount()) {
        return {};
    }
    if (role == Qt::TextAlignmentRole) {
        return alignment(columns_[static_cast<std::size_t>(section)]);
    }
    if (role != Qt::DisplayRole) {
        return {};
    }
    switch (columns_[static_cast<std::size_t>(section)]) {
    case measurand:
        return tr("quantity");
    case prescribed:
        return tr("prescribed");
    case set:
        return tr("set");
    case displayed:
        return tr("displayed");
    case mean:
        return by_hand_ ? tr("by hand") : tr("mean");
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

bool JudgementModel::on_its_way(const Row& row) const
{
    return cycles_needed_ > 0 && row.shown.is.n > 0 && waits_for_cycles(row.shown.is);
}

QString JudgementModel::name(const Row& row) const
{
    const auto text = tr("%1 in %2").arg(row.shown.name, row.shown.is.unit);
    return several_presets_ ? row.shown.is.preset + QStringLiteral(": ") + text : text;
}

QString JudgementModel::verdict_text(const Row& row) const
{
    const auto& is = row.shown.is;
    const bool nothing_yet = is.n == 0 && !is.critical;
    if (cycles_needed_ > 0 && nothing_yet && (waits_for_cycles(is) || is.verdict == Outcome::incomplete)) {
        return {};
    }
    if (is.verdict == Outcome::not_judged && !is.mean) {
        return {};
    }
    if (on_its_way(row)) {
        return tr("so far %1, %2 of %3")
            .arg(sign_of(Outcome::pass), QString::number(is.n), QString::number(cycles_needed_));
    }
    return row.shown.sign + u' ' + row.shown.word;
}

Tone JudgementModel::tone(const Row& row) const
{
    // The colour of a verdict comes with the verdict.
    const bool nothing_yet = cycles_needed_ > 0 && row.shown.is.n == 0 && row.shown.is.verdict == Outcome::incomplete;
    return on_its_way(row) || nothing_yet ? Tone::none : row.shown.tone;
}

QString JudgementModel::measured(const Row& row) const
{
    return row.shown.is.mean ? row.shown.mean : row.by_hand.value_or(row.shown.mean);
}

NumberCard JudgementModel::card(int row) const
{
    const auto& one = rows_[static_cast<std::size_t>(row)];
    const auto& is = one.shown.is;
    QStringList beside;
    if (is.prescribed) {
        beside << tr("prescribed %1").arg(one.shown.prescribed);
    }
    if (is.set && is.set != is.prescribed) {
        beside << tr("set %1").arg(one.shown.set);
    }
    if (is.displayed) {
        beside << tr("displayed %1").arg(one.shown.displayed);
    }
    const auto word = !is.mean && one.by_hand ? tr("by hand") : verdict_text(one);
    return {one.shown.name, measured(one), is.unit, beside.join(QStringLiteral(", ")), word, tone(one)};
}

QString NumberCard::spoken() const
{
    QStringList parts{name, measured + u' ' + unit, beside, verdict};
    parts.removeAll(QString());
    return parts.join(QStringLiteral(", "));
}

QString JudgementModel::text(const Row& row, Column column) const
{
    const auto& shown = row.shown;
    switch (column) {
    case measurand:
        return name(row);
    case prescribed:
        return shown.prescribed;
    case set:
        return shown.set;
    case displayed:
        return shown.displayed;
    case mean:
        return measured(row);
    case worst:
        return shown.worst;
    case limits:
        return shown.limits;
    case verdict:
        return verdict_text(row);
    case basis:
        return shown.is.basis;
    case cycles:
        return QString::number(shown.is.n);
    case uncertainty:
        return shown.uncertainty;
    case coverage:
        return shown.coverage;
    case ratio:
        return shown.ratio;
    case probability:
        return shown.probability;
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
    switch (role) {
    case Qt::AccessibleTextRole:
        if (column == measurand && columns_ == bench_columns()) {
            return card(index.row()).spoken(); // shown as a card, of which only this column is a place of its own
        }
        return text(row, column);
    case Qt::DisplayRole:
        return text(row, column);
    case Qt::ToolTipRole:
        return column == verdict && !row.shown.sentence.isEmpty() ? row.shown.sentence : text(row, column);
    case Qt::TextAlignmentRole:
        return alignment(column);
    case ToneRole:
        return column == verdict ? static_cast<int>(tone(row)) : static_cast<int>(Tone::none);
    default:
        return {};
    }
}

} // namespace zeroline::session
