#include "gui/window/tolerance_form.hpp"

#include "gui/window/form_fields.hpp"
#include "gui/window/page_parts.hpp"

#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QLineEdit>

namespace zeroline::window {

using verification::Tolerance;
using verification::Tolerances;

namespace {

constexpr double kPercent = 100.0;

} // namespace

ToleranceForm::ToleranceForm(const Tolerances& tolerances, QWidget* parent) : QWidget(parent), base_(tolerances)
{
    auto* form = form_in(this);
    form->setContentsMargins(8, 8, 8, 8);
    basis_ = text_field("basis", tr("where the tolerances come from"));
    approved_by_ = text_field("approvedBy", tr("who approved the tolerances"));
    basis_->setPlaceholderText(tr("manual or rule, with its section"));
    approved_by_->setPlaceholderText(tr("who answers for these figures here"));
    put(basis_, tolerances.basis);
    put(approved_by_, tolerances.approved_by);
    form->addRow(tr("Source"), basis_);
    form->addRow(tr("Approved by"), approved_by_);
    add(tr("Pressure"), "tolerancePressure", &Tolerances::pressure, tr("cmH2O"), true);
    add(tr("Duration"), "toleranceDuration", &Tolerances::duration, tr("s"), true);
    add(tr("Pause residual"), "toleranceResidual", &Tolerances::residual, tr("cmH2O"), false);
    add(tr("Zero band"), "toleranceZero", &Tolerances::zero, tr("cmH2O"), false);
    within_s_ = optional_field("zeroWithin", tr("back in the zero band within"), 0.0, 10.0, 2, tr("s"));
    put(within_s_, tolerances.zero ? tolerances.zero->within_s : std::nullopt);
    form->addRow(tr("Back to zero within"), within_s_);
    add(tr("Display"), "toleranceDisplay", &Tolerances::display, tr("cmH2O"), false);
    peak_ = optional_field("peakLimit", tr("limit of the peak pressure"), 0.0, 200.0, 1, tr("cmH2O"));
    put(peak_, tolerances.peak_limit_cmH2O);
    form->addRow(tr("Peak limit"), peak_);
}

void ToleranceForm::add(const QString& label, const char* name, std::optional<Tolerance> Tolerances::*member,
                        const QString& unit, bool relative)
{
    const auto& given = base_.*member;
    Line line{member, optional_field(name, tr("%1, absolute").arg(label), 0.0, 50.0, 2, unit), nullptr};
    put(line.absolute, given ? given->absolute : std::nullopt);
    QWidget* field = line.absolute;
    if (relative) {
        const auto relative_name = QByteArray(name) + "Relative";
        line.relative =
            optional_field(relative_name.constData(), tr("%1, relative").arg(label), 0.0, kPercent, 1, tr("%"));
        put(line.relative, given && given->relative ? std::optional(kPercent * *given->relative) : std::nullopt);
        field = row_of({line.absolute, line.relative});
    }
    static_cast<QFormLayout*>(layout())->addRow(label, field);
    lines_.push_back(line);
}

Tolerances ToleranceForm::tolerances() const
{
    auto tolerances = base_;
    tolerances.basis = value_of(basis_);
    tolerances.approved_by = value_of(approved_by_);
    for (const auto& line : lines_) {
        auto& one = tolerances.*line.member;
        const auto absolute = value_of(line.absolute);
        const auto percent = line.relative != nullptr ? value_of(line.relative) : std::nullopt;
        const bool apart = one && (one->lower || one->upper);
        if (!absolute && !percent && !apart) {
            one.reset();
            continue;
        }
        if (!one) {
            one.emplace();
        }
        one->absolute = absolute;
        one->relative = percent ? std::optional(*percent / kPercent) : std::nullopt;
        one->basis = one->basis.empty() || one->basis == base_.basis ? tolerances.basis : one->basis;
    }
    if (tolerances.zero) {
        tolerances.zero->within_s = value_of(within_s_);
    }
    tolerances.peak_limit_cmH2O = value_of(peak_);
    return tolerances;
}

} // namespace zeroline::window
