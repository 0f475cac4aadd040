#include "gui/window/procedure_choice.hpp"

#include "gui/window/form_fields.hpp"
#include "gui/window/page_parts.hpp"

#include <QComboBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace zeroline::window {

ProcedureChoice::ProcedureChoice(QWidget* parent) : QWidget(parent), recent_(QStringLiteral("procedures"))
{
    choice_ = choice_field("procedure", tr("procedure"));
    choice_->addItem(tr("as this bench does it"), QString());
    for (const auto& [name, words] : {std::pair("guided", tr("guided: the run alone")),
                                      {"pre-delivery", tr("before delivery")},
                                      {"periodic", tr("periodic check")},
                                      {"home-visit", tr("home visit")}}) {
        choice_->addItem(words, QString::fromLatin1(name));
    }
    for (const auto& file : recent_.files()) {
        choice_->addItem(QFileInfo(file).fileName(), file);
    }
    auto* browse = button("procedureOpen", tr("Choose..."));
    browse->setAccessibleName(tr("choose the file of a procedure"));
    summary_ = text_label("procedureSummary", tr("procedure"));
    auto* row = row_of({choice_, browse});
    let_grow(row, 0);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    layout->addWidget(row);
    layout->addWidget(summary_);
    connect(choice_, &QComboBox::activated, this, &ProcedureChoice::chosen);
    connect(browse, &QPushButton::clicked, this, &ProcedureChoice::open);
}

void ProcedureChoice::open()
{
    const auto file = QFileDialog::getOpenFileName(this, tr("A procedure"), {}, QStringLiteral("*.json"));
    if (!file.isEmpty()) {
        choose(file);
    }
}

void ProcedureChoice::choose(const QString& name_or_file)
{
    if (choice_->findData(name_or_file) < 0) {
        choice_->addItem(QFileInfo(name_or_file).fileName(), name_or_file);
    }
    choice_->setCurrentIndex(choice_->findData(name_or_file));
    Q_EMIT chosen();
}

void ProcedureChoice::remember() const
{
    if (const auto file = choice_->currentData().toString(); QFileInfo(file).isFile()) {
        recent_.used(file);
    }
}

std::optional<records::Read<verification::Procedure>>
ProcedureChoice::procedure(const std::optional<std::filesystem::path>& bench_file,
                           verification::Occasion occasion) const
{
    return records::procedure_of_run(choice_->currentData().toString().toStdString(), bench_file, occasion);
}

std::optional<verification::Occasion> ProcedureChoice::only_for() const
{
    const auto name = choice_->currentData().toString().toStdString();
    return name.empty() ? std::nullopt : records::load_procedure(name).meaning.occasion;
}

void ProcedureChoice::show_summary(const QString& text) { summary_->setText(text); }

QString procedure_summary(const std::optional<records::Read<verification::Procedure>>& procedure)
{
    if (!procedure) {
        return ProcedureChoice::tr("The guided run: zero, plug, manual, automatic, zero again, hand back.");
    }
    const auto asked = verification::checklist_items(procedure->meaning).size();
    return ProcedureChoice::tr("%1, revision %2; items asked about: %3")
        .arg(QString::fromStdString(procedure->meaning.name), QString::fromStdString(procedure->meaning.revision))
        .arg(asked);
}

} // namespace zeroline::window
