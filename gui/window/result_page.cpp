#include "gui/window/result_page.hpp"

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/visible_text.hpp"
#include "gui/charts/picture_view.hpp"
#include "gui/print/pages.hpp"
#include "gui/records/bench_file.hpp"
#include "gui/records/folder_check.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/key_list.hpp"
#include "gui/session/record_saving.hpp"
#include "gui/window/form_fields.hpp"
#include "gui/window/look.hpp"
#include "gui/window/numbers_table.hpp"
#include "gui/window/result_charts.hpp"
#include "gui/window/result_identity.hpp"
#include "gui/window/tone_view.hpp"

#include <QComboBox>
#include <QDesktopServices>
#include <QDir>
#include <QFileDialog>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListView>
#include <QLocale>
#include <QPushButton>
#include <QSettings>
#include <QStandardPaths>
#include <QTabWidget>
#include <QUrl>
#include <QVBoxLayout>

#include <algorithm>

namespace zeroline::window {

using session::JudgementModel;
using session::Tone;

namespace {

constexpr double kVerdict_pt = 40.0;
constexpr double kLongVerdict_pt = 26.0; ///< two answers, or a whole sentence
constexpr qsizetype kLongVerdict = 24;   ///< letters
constexpr double kWhy_pt = 14.0;
constexpr double kIdentity_pt = 12.0;
constexpr int kLettersForStrips = 110; ///< width of the page with room for the strips
constexpr int kLeastLines = 17;        ///< of the page that is shown

QLineEdit* short_edit(const char* name, const QString& spoken)
{
    auto* made = named(new QLineEdit, name, spoken);
    made->setMinimumHeight(kTarget_px);
    made->setPlaceholderText(spoken);
    return made;
}

QComboBox* short_combo(const char* name, const QString& spoken)
{
    auto* made = named(new QComboBox, name, spoken);
    made->setMinimumHeight(kTarget_px);
    return made;
}

/// Tabs that take what is left of the window, and make it scroll only where that is too little to see anything.
class LowTabs : public QTabWidget {
public:
    [[nodiscard]] bool hasHeightForWidth() const override { return false; }
    [[nodiscard]] QSize minimumSizeHint() const override
    {
        return {QTabWidget::minimumSizeHint().width(), kLeastLines * fontMetrics().height() + kTarget_px};
    }
    [[nodiscard]] QSize sizeHint() const override { return minimumSizeHint(); }
};

/// The printed page that goes into the record.
records::PageMaker page_maker()
{
    return [](const std::filesystem::path& folder, const std::filesystem::path& pdf,
              const records::Signature& signature, const std::string& key) {
        print::PageOptions options;
        options.signatures = {{signature.signer, signature.role, signature.meaning, signature.time, key}};
        print::write_record_page(folder, pdf, options);
    };
}

} // namespace

ResultPage::ResultPage(QWidget* parent) : QWidget(parent), numbers_(JudgementModel::result_columns())
{
    named(this, "resultPage", tr("result of the run"));
    setFocusPolicy(Qt::StrongFocus);
    auto* inner = new QWidget;
    auto* layout = new QVBoxLayout(inner);
    layout->setSpacing(4);
    layout->addWidget(make_top());
    tabs_ = named(static_cast<QTabWidget*>(new LowTabs), "tabs", tr("numbers, cycles, trace and findings"));
    tabs_->addTab(make_numbers(), tr("&Numbers"));
    tabs_->addTab(charts_ = new ResultCharts, tr("C&ycles and trace"));
    tabs_->addTab(sentence_list("findings", tr("findings and reasons"), &findings_), tr("&Findings"));
    layout->addWidget(tabs_, 1);
    layout->addWidget(make_signing());
    layout->addWidget(make_next());
    told_ = text_label("told", tr("what was done last"));
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(0, 0, 0, 4);
    told_->setContentsMargins(layout->contentsMargins().left(), 0, layout->contentsMargins().right(), 0);
    outer->addWidget(scrolled(inner, "resultScroll", tr("result of the run")), 1);
    outer->addWidget(told_);
    connect_actions();
}

/// The verdict, and beside it how far each worst value is from its limits.
QWidget* ResultPage::make_top()
{
    strips_ = make_limit_strips();
    auto* top = new QWidget;
    auto* layout = new QHBoxLayout(top);
    layout->setContentsMargins({});
    layout->addWidget(make_verdict(), 3);
    layout->addWidget(strips_, 2);
    return top;
}

void ResultPage::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    // Large letters leave the words all the room.
    strips_->setVisible(width() > kLettersForStrips * fontMetrics().averageCharWidth());
}

QWidget* ResultPage::make_verdict()
{
    identity_ = large_label("identity", tr("unit, order, date and signer"), kIdentity_pt, true);
    not_tested_ = text_label("notTested", tr("what was not tested"));
    banner_ = text_label("simulated", tr("what this record is not"));
    auto bold = banner_->font();
    bold.setBold(true);
    banner_->setFont(bold);
    fill_with(banner_, Tone::conditional);
    verdict_ = large_label("verdict", tr("verdict"), kVerdict_pt, true);
    verdict_->setAutoFillBackground(true);
    verdict_->setMargin(4);
    why_ = large_label("why", tr("why"), kWhy_pt);
    to_do_ = text_label("toDo", tr("what to do"));
    to_do_->setFont(bold);
    accuracy_ = text_label("accuracy", tr("whether the unit does what it is set to"));
    seal_ = large_label("seal", tr("whether the record is as it was sealed"), kWhy_pt, true);
    seal_->setAutoFillBackground(true);
    seal_->setMargin(4);
    auto colours = palette();
    colours.setColor(QPalette::Window, fill_of(Tone::fail));
    colours.setColor(QPalette::WindowText, ink_on(Tone::fail, palette()));
    seal_->setPalette(colours);
    seal_->hide();
    return column_of({seal_, banner_, identity_, not_tested_, verdict_, why_, to_do_, accuracy_});
}

QWidget* ResultPage::make_numbers()
{
    table_ = new NumbersTable("result", tr("numbers of the result"), &numbers_);
    no_room_ = text_label("noRoom", tr("columns that are not shown"));
    no_room_->hide();
    connect(table_, &NumbersTable::leftOutChanged, this, [this](const QStringList& columns) {
        no_room_->setText(tr("No room here for: %1. A wider window and the record show them.")
                              .arg(columns.join(QStringLiteral(", "))));
        no_room_->setVisible(!columns.isEmpty());
    });
    details_ = button("details", tr("&Uncertainty, ratio and probability"));
    details_->setCheckable(true);
    auto* page = column_of({table_, no_room_});
    static_cast<QVBoxLayout*>(page->layout())->addWidget(details_, 0, Qt::AlignLeft);
    return page;
}

QWidget* ResultPage::make_signing()
{
    signer_ = short_edit("signer", tr("name"));
    role_ = short_edit("role", tr("role"));
    meaning_ = short_combo("meaning", tr("meaning of the signature"));
    for (const auto& [text, code] :
         {std::pair{tr("performed by"), "performed the verification and answers for this record"},
          {tr("reviewed by"), "reviewed the verification and this record"},
          {tr("approved by"), "approved this record"}}) {
        meaning_->addItem(text, QLatin1String(code));
    }
    save_ = button("save", tr("&Sign and save the record"));
    what_ = short_combo("what", tr("what is printed"));
    what_->addItem(tr("record"), QStringLiteral("record"));
    what_->addItem(tr("label"), QStringLiteral("label"));
    what_->addItem(tr("copy for home"), QStringLiteral("home"));
    print_ = button("print", tr("&Print..."));
    next_ = button("next", tr("Ne&xt unit"));
    auto* sign = row_of({new QLabel(tr("Sign:")), signer_, role_, meaning_, save_});
    let_grow(sign, 1, 2);
    let_grow(sign, 2);
    auto* print = row_of({new QLabel(tr("Print:")), what_, print_, next_});
    put_gap(print, 3);
    const QSettings settings;
    signer_->setText(settings.value(QStringLiteral("sign/name")).toString());
    role_->setText(settings.value(QStringLiteral("sign/role")).toString());
    auto* rows = column_of({sign, print});
    rows->layout()->setSpacing(4);
    return rows;
}

QWidget* ResultPage::make_next()
{
    as_left_ = button("asLeft", tr("As-left run"));
    as_left_->setToolTip(tr("after an authorised adjustment: this run stays as the as-found one"));
    cause_ = short_combo("cause", tr("what was wrong with the set-up"));
    for (const auto& [text, code] : {std::pair{tr("zero"), "zero"},
                                     {tr("plug"), "plug"},
                                     {tr("hose"), "hose"},
                                     {tr("instrument"), "instrument"}}) {
        cause_->addItem(text, QLatin1String(code));
    }
    evidence_ = short_edit("evidence", tr("what was done, or what shows it"));
    again_ = button("again", tr("Run again: the set-up was at fault"));
    at_fault_ = new QLabel(tr("At fault:"));
    at_fault_->setBuddy(cause_);
    auto* row = row_of({new QLabel(tr("Once more:")), as_left_, evidence_, at_fault_, cause_, again_});
    let_grow(row, 2);
    return row;
}

void ResultPage::connect_actions()
{
    connect(details_, &QPushButton::toggled, this, &ResultPage::show_details);
    connect(save_, &QPushButton::clicked, this, &ResultPage::save);
    connect(print_, &QPushButton::clicked, this, &ResultPage::print);
    connect(as_left_, &QPushButton::clicked, this, &ResultPage::ask_as_left);
    connect(again_, &QPushButton::clicked, this, &ResultPage::ask_again);
    connect(next_, &QPushButton::clicked, this, &ResultPage::wantsNextUnit);
}

void ResultPage::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_U) {
        details_->toggle();
        return;
    }
    QWidget::keyPressEvent(event);
}

/// What stands above a record that is not what it was sealed as, or was never sealed; empty where all is well.
QString ResultPage::words_about_seal(const std::filesystem::path& folder)
{
    const auto check = records::check_folder(folder);
    if (!check.sealed) {
        return tr("DRAFT: never sealed. It is evidence of nothing.");
    }
    if (!check.troubles.empty()) {
        return tr("NOT INTACT: %1. What is shown is computed from the files as they are now, not as they were sealed.")
            .arg(QString::fromStdString(trace::visible_on_one_line(check.troubles.front())));
    }
    const auto known = records::own_keys(records::key_file(records::usual_bench_file()));
    if (known.name_of(check.public_key).empty()) {
        return tr("KEY NOT KNOWN: sealed by a key that is not in the list of this bench.");
    }
    const auto against = known.against(check.public_key, check.signature.time);
    return against.empty() ? QString() : tr("NOT INTACT: the key %1.").arg(QString::fromStdString(against));
}

void ResultPage::show_result(session::RunResult result)
{
    seal_->hide();
    saved_ = false;
    shown_folder_ = result.folder->part();
    result_.emplace(std::move(result));
    if (signer_->text().isEmpty() && result_->evidence.run) {
        signer_->setText(QString::fromStdString(result_->evidence.run->meaning.run_operator));
    }
    told_->clear();
    show_all();
    setFocus();
}

void ResultPage::show_record(const std::filesystem::path& folder)
{
    auto evidence = records::load_record_evidence(folder);
    auto assessed = records::assess(evidence);
    // What was sealed is what is shown; curves and marks are drawn from its trace.
    const auto opened = records::OpenFolder::at(folder);
    if (opened.kind(records::name::record) != records::OpenFolder::Kind::none) {
        assessed.record_json = opened.read(records::name::record);
    }
    shown_folder_ = folder;
    saved_ = true;
    result_.emplace(
        session::RunResult{std::nullopt, std::move(evidence), std::move(assessed), session::Ending::completed, {}});
    told_->setText(tr("The record in %1.").arg(QString::fromStdString(folder.string())));
    seal_->setText(words_about_seal(folder));
    seal_->setVisible(!seal_->text().isEmpty());
    show_all();
    setFocus();
}

void ResultPage::show_trace(records::LoadedEvidence evidence)
{
    auto assessed = records::assess(evidence);
    shown_folder_.clear();
    saved_ = true;
    seal_->hide(); // it was about another one
    result_.emplace(
        session::RunResult{std::nullopt, std::move(evidence), std::move(assessed), session::Ending::completed, {}});
    told_->setText(tr("Looked at only: this is no record, and nothing was saved."));
    show_all();
    setFocus();
}

void ResultPage::show_all()
{
    view_ = session::result_view(result_->assessed.record_json, session::Reader::screen);
    show_verdict();
    numbers_.show(view_, {});
    findings_.show(view_);
    tabs_->setTabText(2, tr("&Findings (%1)").arg(view_.findings.size()));
    charts_->show_result(*result_, view_, shown_folder_);
    show_limit_strips(strips_, view_);
    show_state();
}

void ResultPage::show_verdict()
{
    identity_->setText(identity_of(*result_, shown_folder_));
    not_tested_->setText(view_.not_tested);
    banner_->setText(view_.banner.join(u'\n'));
    banner_->setVisible(!view_.banner.isEmpty());
    verdict_->setText(view_.sign + u' ' + view_.headline);
    auto font = verdict_->font();
    font.setPointSizeF(std::max(view_.headline.size() > kLongVerdict ? kLongVerdict_pt : kVerdict_pt,
                                1.15 * this->font().pointSizeF()));
    verdict_->setFont(font);
    auto colours = palette();
    if (const auto fill = fill_of(view_.tone); fill.isValid()) {
        colours.setColor(QPalette::Window, fill);
        colours.setColor(QPalette::WindowText, ink_on(view_.tone, palette()));
    }
    verdict_->setPalette(colours);
    why_->setText(view_.sentence + (view_.why.isEmpty() ? QString() : u' ' + view_.why));
    to_do_->setText(view_.to_do.join(u'\n'));
    to_do_->setVisible(!view_.to_do.isEmpty());
    accuracy_->setText(view_.accuracy);
}

void ResultPage::show_details(bool details)
{
    numbers_.set_columns(details ? JudgementModel::detail_columns() : JudgementModel::result_columns());
}

void ResultPage::show_state()
{
    const bool fresh = !saved_;
    save_->setEnabled(fresh && result_->whole());
    print_->setEnabled(!fresh && !shown_folder_.empty());
    for (auto* field : {signer_, role_}) {
        field->setEnabled(fresh);
    }
    meaning_->setEnabled(fresh);
    // Nobody looks for a fault in a set-up that agreed.
    const bool agreed = view_.tone == Tone::pass;
    for (QWidget* one : std::initializer_list<QWidget*>{at_fault_, cause_, again_}) {
        one->setVisible(!agreed);
    }
    if (fresh && !result_->whole()) {
        told_->setText(tr("The run was not seen to its end. What was captured is kept in %1.")
                           .arg(QString::fromStdString(result_->folder->part().string())));
    }
}

void ResultPage::save()
{
    if (!result_ || saved_) {
        return;
    }
    const session::Signing signing{signer_->text().trimmed().toStdString(), role_->text().trimmed().toStdString(),
                                   meaning_->currentData().toString().toStdString()};
    try {
        const auto saving = session::save_record(*result_, signing, page_maker());
        if (!saving.missing.empty()) {
            return say_missing(saving.missing);
        }
        shown_folder_ = saving.folder;
    } catch (const trace::InputError& error) {
        told_->setText(QString::fromUtf8(error.what()));
        return;
    }
    QSettings settings;
    settings.setValue(QStringLiteral("sign/name"), signer_->text());
    settings.setValue(QStringLiteral("sign/role"), role_->text());
    saved_ = true;
    identity_->setText(identity_of(*result_, shown_folder_));
    show_state();
    told_->setText(tr("Saved in %1.").arg(QString::fromStdString(shown_folder_.string())));
}

void ResultPage::say_missing(const std::vector<std::string>& missing)
{
    QStringList names;
    for (const auto& one : missing) {
        names << QString::fromStdString(one);
    }
    told_->setText(tr("Not sealed: it lacks %1. What was captured is kept in %2.")
                       .arg(names.join(QStringLiteral("; ")), QString::fromStdString(shown_folder_.string())));
}

void ResultPage::ask_as_left()
{
    const auto done = evidence_->text().trimmed();
    if (!saved_ || done.isEmpty()) {
        told_->setText(tr("Sign and save the as-found run first, and say what was done to the unit since."));
        evidence_->setFocus();
        return;
    }
    Q_EMIT wantsAgain({}, done);
}

void ResultPage::ask_again()
{
    const auto evidence = evidence_->text().trimmed();
    if (evidence.isEmpty()) {
        told_->setText(tr("Say what shows that the set-up was at fault: a later run replaces this one only with its "
                          "evidence."));
        evidence_->setFocus();
        return;
    }
    Q_EMIT wantsAgain(cause_->currentData().toString(), evidence);
}

void ResultPage::print()
{
    const auto what = what_->currentData().toString();
    const auto folder = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
    const auto name = QString::fromStdString(shown_folder_.filename().string()) + u'-' + what + QStringLiteral(".pdf");
    const auto file =
        QFileDialog::getSaveFileName(this, tr("Print to a file"), QDir(folder).filePath(name), tr("PDF files (*.pdf)"));
    if (!file.isEmpty() && print_to(file)) {
        QDesktopServices::openUrl(QUrl::fromLocalFile(file));
    }
}

bool ResultPage::print_to(const QString& file)
{
    const auto what = what_->currentData().toString();
    print::PageOptions options;
    options.language = QLocale().name().left(2).toStdString();
    try {
        const auto bench = result_->bench_file ? result_->bench_file : records::usual_bench_file();
        const auto known = records::own_keys(records::key_file(bench));
        options.known = &known;
        const std::filesystem::path out = file.toStdString();
        if (what == QLatin1String("label")) {
            print::write_label(shown_folder_, out, options);
        } else if (what == QLatin1String("home")) {
            print::write_home_page(shown_folder_, out, options);
        } else {
            print::write_record_page(shown_folder_, out, options);
        }
    } catch (const trace::InputError& error) {
        told_->setText(QString::fromUtf8(error.what()));
        return false;
    }
    told_->setText(tr("Printed to %1.").arg(file));
    return true;
}

} // namespace zeroline::window
