#include "gui/window/result_page.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/charts/picture_view.hpp"
#include "gui/print/pages.hpp"
#include "gui/records/json_file.hpp"
#include "gui/session/after_the_verdict.hpp"
#include "gui/session/record_saving.hpp"
#include "gui/window/form_fields.hpp"
#include "gui/window/home_lines.hpp"
#include "gui/window/ladder_panel.hpp"
#include "gui/window/numbers_table.hpp"
#include "gui/window/once_more.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/register_reader.hpp"
#include "gui/window/result_charts.hpp"
#include "gui/window/result_head.hpp"
#include "gui/window/result_identity.hpp"
#include "gui/window/signing_bar.hpp"
#include "gui/window/tone_colours.hpp"
#include "gui/window/tone_delegate.hpp"

#include <QDir>
#include <QEvent>
#include <QFileDialog>
#include <QKeyEvent>
#include <QLabel>
#include <QListView>
#include <QPrintDialog>
#include <QPrinter>
#include <QPushButton>
#include <QStandardPaths>
#include <QVBoxLayout>

#include <algorithm>
#include <numeric>

namespace zeroline::window {

using session::JudgementModel;
using session::Tone;

namespace {

constexpr double kVerdict_pt = 40.0;
constexpr double kLongVerdict_pt = 22.0; ///< two answers, or a whole sentence
constexpr qsizetype kLongVerdict = 24;   ///< letters
constexpr double kWhy_pt = 14.0;
constexpr int kLettersAbreast = 110; ///< width of the page with room for two things side by side

/// Where the limits come from stands once below the table.
std::vector<JudgementModel::Column> shown_columns(bool details = false)
{
    auto columns = details ? JudgementModel::detail_columns() : JudgementModel::result_columns();
    std::erase(columns, JudgementModel::basis);
    return columns;
}

QBoxLayout* row_in(QWidget* card)
{
    auto* row = new QBoxLayout(QBoxLayout::LeftToRight);
    row->setSpacing(kPage_px);
    static_cast<QVBoxLayout*>(card->layout())->addLayout(row);
    return row;
}

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

/// What was never sealed can be signed now, unless another program is at it.
std::optional<records::RecordFolder> taken_up(const std::filesystem::path& folder)
{
    if (!records::RecordFolder::is_part(folder)) {
        return std::nullopt;
    }
    try {
        return records::RecordFolder::take_up(folder);
    } catch (const trace::InputError&) {
        return std::nullopt;
    }
}

} // namespace

ResultPage::ResultPage(QWidget* parent) : QWidget(parent), numbers_(shown_columns())
{
    named(this, "resultPage", tr("result of the run"));
    setFocusPolicy(Qt::StrongFocus);
    charts_ = new ResultCharts;
    auto* inner = new QWidget;
    auto* layout = new QVBoxLayout(inner);
    layout->setContentsMargins(kPage_px, kGap_px, kPage_px, kGap_px);
    layout->setSpacing(kGap_px);
    home_lines_ = new HomeLines;
    for (QWidget* part :
         std::initializer_list<QWidget*>{make_top(), card_of({make_numbers()}), make_ladder(), make_findings(),
                                         card_of({charts_->whole()}), home_lines_, again_ = new OnceMore}) {
        layout->addWidget(part);
    }
    layout->addStretch(1);
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(0, 0, 0, kGap_px);
    outer->setSpacing(kAir_px);
    outer->addWidget(head_ = new ResultHead);
    outer->addWidget(scrolled(inner, "resultScroll", tr("result of the run")), 1);
    outer->addWidget(bar_ = new SigningBar);
    connect_actions();
}

/// The verdict with each worst value between its limits, and beside it what it was seen in.
QWidget* ResultPage::make_top()
{
    auto* card = card_of({});
    top_ = row_in(card);
    top_->addWidget(make_verdict(), 1);
    auto* beside = column_of({charts_});
    auto* column = static_cast<QVBoxLayout*>(beside->layout());
    column->setStretch(0, 100);
    column->addStretch(1);
    top_->addWidget(beside, 1);
    return card;
}

QWidget* ResultPage::make_ladder() { return ladder_ = new LadderPanel; }

QWidget* ResultPage::make_findings()
{
    findings_head_ = heading(tr("Findings and remarks (%1)").arg(0));
    findings_card_ = card_of({findings_head_, sentence_list("findings", tr("findings and reasons"), &findings_)});
    return findings_card_;
}

void ResultPage::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    stand_abreast(*this, kLettersAbreast, {top_});
    // All of them in sight at once, however long the words beside them are.
    const int in_sight = height() - bar_->sizeHint().height() - head_->sizeHint().height() - 2 * kPage_px;
    charts_->setMaximumHeight(std::max(charts_->minimumSizeHint().height(), in_sight));
}

void ResultPage::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && result_) {
        show_verdict();
    }
}

QWidget* ResultPage::make_verdict()
{
    not_tested_ = text_label("notTested", tr("what was not tested"));
    banner_ = text_label("simulated", tr("what this record is not"));
    auto bold = banner_->font();
    bold.setBold(true);
    banner_->setFont(bold);
    fill_with(banner_, Tone::conditional);
    verdict_ = large_label("verdict", tr("verdict"), kVerdict_pt, true);
    why_ = large_label("why", tr("why"), kWhy_pt);
    not_given_out_ = large_label("notGivenOut", tr("what becomes of the unit"), kWhy_pt, true);
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
    strips_ = make_limit_strips();
    auto* words = column_of({seal_, banner_, verdict_, not_given_out_, why_, to_do_, accuracy_, not_tested_, strips_});
    static_cast<QVBoxLayout*>(words->layout())->addStretch(1);
    return words;
}

QWidget* ResultPage::make_numbers()
{
    table_ = new NumbersTable("result", tr("numbers of the result"), &numbers_);
    table_->show_whole();
    sources_ = text_label("sources", tr("source of the limits"));
    no_room_ = text_label("noRoom", tr("columns that are not shown"));
    no_room_->hide();
    connect(table_, &NumbersTable::leftOutChanged, this, [this](const QStringList& columns) {
        no_room_->setText(tr("No room here for: %1. A wider window and the record show them.")
                              .arg(columns.join(QStringLiteral(", "))));
        no_room_->setVisible(!columns.isEmpty());
    });
    details_ = button("details", tr("&Uncertainty, ratio and probability"));
    details_->setCheckable(true);
    auto* page = column_of({table_, no_room_, sources_});
    static_cast<QVBoxLayout*>(page->layout())->addWidget(details_, 0, Qt::AlignLeft);
    static_cast<QVBoxLayout*>(page->layout())->addStretch(1);
    return page;
}

void ResultPage::connect_actions()
{
    connect(details_, &QPushButton::toggled, this, &ResultPage::show_details);
    connect(bar_, &SigningBar::saves, this, &ResultPage::save);
    connect(bar_, &SigningBar::savesAndGoesOn, this, [this] {
        save();
        if (saved_) {
            Q_EMIT wantsNextUnit();
        }
    });
    connect(bar_, &SigningBar::prints, this, &ResultPage::print);
    connect(bar_, &SigningBar::savesPdf, this, &ResultPage::save_pdf);
    connect(bar_, &SigningBar::goesOn, this, &ResultPage::go_on);
    connect(bar_, &SigningBar::leavesUnsigned, this, &ResultPage::wantsNextUnit);
    connect(again_, &OnceMore::wantsAgain, this, &ResultPage::wantsAgain);
    connect(again_, &OnceMore::lacks, bar_, &SigningBar::tell);
}

bool ResultPage::waits_for_signature() const { return result_ && !saved_ && result_->whole(); }

void ResultPage::use_register(RegisterReader* reader)
{
    reader_ = reader;
    charts_->use_register(reader);
}

void ResultPage::go_on()
{
    if (!waits_for_signature()) {
        Q_EMIT wantsNextUnit();
        return;
    }
    bar_->ask_about_leaving();
}

void ResultPage::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_U) {
        details_->toggle();
        return;
    }
    QWidget::keyPressEvent(event);
}

void ResultPage::show_result(session::RunResult result)
{
    seal_->hide();
    practised_.clear();
    saved_ = false;
    shown_folder_ = result.folder->part();
    result_.emplace(std::move(result));
    if (result_->evidence.run) {
        bar_->suggest_signer(result_->evidence.run->meaning.run_operator);
    }
    bar_->tell({});
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
    practised_.clear();
    result_.reset(); // it may hold that folder
    const auto bench_file = reader_ == nullptr ? std::nullopt : reader_->bench().file;
    result_.emplace(session::RunResult{taken_up(folder), std::move(evidence), std::move(assessed),
                                       session::Ending::completed, bench_file});
    saved_ = !result_->folder;
    if (!saved_ && result_->evidence.run) {
        bar_->suggest_signer(result_->evidence.run->meaning.run_operator);
    }
    bar_->tell(saved_ ? tr("The record in %1.").arg(QString::fromStdString(folder.string()))
                      : tr("The run in %1, which nobody has signed yet.").arg(QString::fromStdString(folder.string())));
    seal_->setText(words_about_seal(folder));
    seal_->setVisible(!seal_->text().isEmpty());
    show_all();
    setFocus();
}

void ResultPage::show_trace(records::LoadedEvidence evidence, const QStringList& practised)
{
    practised_ = practised;
    auto assessed = records::assess(evidence);
    shown_folder_.clear();
    saved_ = true;
    seal_->hide(); // it was about another one
    result_.emplace(
        session::RunResult{std::nullopt, std::move(evidence), std::move(assessed), session::Ending::completed, {}});
    bar_->tell(practised.isEmpty() ? tr("Looked at only: this is no record, and nothing was saved.")
                                   : tr("Practice: nothing is kept."));
    show_all();
    setFocus();
}

void ResultPage::show_all()
{
    view_ = session::result_view(result_->assessed.record_json, session::Reader::screen);
    session::mark_as_practice(view_, practised_, session::Reader::screen);
    again_->setVisible(practised_.isEmpty());
    show_verdict();
    numbers_.show(view_, {});
    findings_.show(view_);
    findings_head_->setText(tr("Findings and remarks (%1)").arg(findings_.rowCount()));
    findings_card_->setVisible(findings_.rowCount() > 0);
    sources_->setText(tr("Limits from: %1.").arg(view_.sources.join(QStringLiteral("; "))));
    sources_->setVisible(!view_.sources.isEmpty());
    ladder_->show_ladder(view_);
    charts_->show_result(*result_, view_, shown_folder_);
    show_limit_strips(strips_, view_);
    bar_->begin_unit(session::may_be_released(view_));
    show_state();
}

void ResultPage::show_verdict()
{
    head_->show_result(view_, identity_of(*result_, shown_folder_), seal_->isHidden() ? QString() : seal_->text());
    not_tested_->setText(view_.not_tested);
    banner_->setText(view_.banner.join(u'\n'));
    banner_->setVisible(!view_.banner.isEmpty());
    verdict_->setText(view_.sign + u' ' + view_.headline);
    auto font = verdict_->font();
    font.setPointSizeF(std::max(view_.headline.size() > kLongVerdict ? kLongVerdict_pt : kVerdict_pt,
                                1.15 * this->font().pointSizeF()));
    verdict_->setFont(font);
    fill_with(verdict_, view_.tone);
    why_->setText(QString(view_.sentence + u' ' + view_.why).trimmed());
    auto to_do = view_.to_do + view_.after;
    not_given_out_->setVisible(view_.not_given_out());
    not_given_out_->setText(view_.not_given_out() ? to_do.takeFirst() : QString());
    to_do_->setText(to_do.join(u'\n'));
    to_do_->setVisible(!to_do.isEmpty());
    accuracy_->setText(session::sign_of(view_.unit_accuracy) + u' ' + view_.accuracy);
    fill_with(accuracy_, session::tone_of(view_.unit_accuracy));
}

void ResultPage::show_details(bool details) { numbers_.set_columns(shown_columns(details)); }

void ResultPage::show_state()
{
    const bool fresh = !saved_;
    bar_->show_state(fresh && result_->whole(), !fresh && !shown_folder_.empty());
    home_lines_->show_record(fresh ? std::filesystem::path() : shown_folder_);
    again_->show_for(view_.tone == Tone::pass, saved_);
    if (fresh && !result_->whole()) {
        bar_->tell(tr("The run was not seen to its end. What was captured is kept in %1.")
                       .arg(QString::fromStdString(result_->folder->part().string())));
    }
}

void ResultPage::save()
{
    if (!result_ || saved_) {
        return;
    }
    records::Unlock unlock;
    try {
        const auto saving =
            session::save_record(*result_, bar_->signing(), page_maker(), reader_->bench().other_register);
        if (!saving.missing.empty()) {
            return say_missing(saving.missing);
        }
        shown_folder_ = saving.folder;
        saved_ = true;
        unlock = saving.unlock;
        // What was sealed is what is shown from now on.
        result_->assessed.record_json = records::read_file(shown_folder_ / records::name::record);
    } catch (const trace::InputError& error) {
        bar_->tell(QString::fromUtf8(error.what()));
        return;
    }
    bar_->remember();
    seal_->hide();
    show_all();
    deliver(unlock);
}

void ResultPage::deliver(const records::Unlock& unlock)
{
    const auto said = tr("Saved in %1.").arg(QString::fromStdString(shown_folder_.string()));
    bar_->tell(said);
    const auto add = [](const QString& text, const std::string& line) {
        return text + u' ' + QString::fromStdString(line) + u'.';
    };
    reader_->deliver(shown_folder_, unlock, [=, this, saved = shown_folder_](const auto& lines) {
        if (saved == shown_folder_ && !lines.empty()) {
            bar_->tell(std::accumulate(lines.begin(), lines.end(), said, add));
        }
    });
}

void ResultPage::say_missing(const std::vector<std::string>& missing)
{
    QStringList names;
    for (const auto& one : missing) {
        names << QString::fromStdString(one);
    }
    bar_->tell(tr("Not sealed: it lacks %1. What was captured is kept in %2.")
                   .arg(names.join(QStringLiteral("; ")), QString::fromStdString(shown_folder_.string())));
}

void ResultPage::save_pdf()
{
    const auto what = bar_->what();
    const auto folder = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
    const auto name = QString::fromStdString(shown_folder_.filename().string()) + u'-' + what + QStringLiteral(".pdf");
    const auto file =
        QFileDialog::getSaveFileName(this, tr("Save as PDF"), QDir(folder).filePath(name), tr("PDF files (*.pdf)"));
    if (!file.isEmpty()) {
        static_cast<void>(print_to(file));
    }
}

Printout ResultPage::printout() const { return {shown_folder_, bar_->what(), result_->bench_file}; }

void ResultPage::print()
{
    QPrinter printer(QPrinter::HighResolution);
    QPrintDialog dialog(&printer, this);
    if (dialog.exec() != QDialog::Accepted) {
        return;
    }
    try {
        printout().print(printer);
        bar_->tell(tr("Sent to %1.").arg(printer.printerName()));
    } catch (const trace::InputError& error) {
        bar_->tell(QString::fromUtf8(error.what()));
    }
}

bool ResultPage::print_to(const QString& file)
{
    try {
        printout().save_pdf(file);
    } catch (const trace::InputError& error) {
        bar_->tell(QString::fromUtf8(error.what()));
        return false;
    }
    bar_->tell(tr("Saved as %1.").arg(file));
    return true;
}

} // namespace zeroline::window
