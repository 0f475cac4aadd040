#include "gui/window/start_page.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/bench_file.hpp"
#include "gui/records/signing_key.hpp"
#include "gui/session/checklist.hpp"
#include "gui/session/sealing_needs.hpp"
#include "gui/window/checklist_panel.hpp"
#include "gui/window/demonstration.hpp"
#include "gui/window/fault_choice.hpp"
#include "gui/window/file_choice.hpp"
#include "gui/window/form_fields.hpp"
#include "gui/window/known_unit.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/passphrase_dialog.hpp"
#include "gui/window/port_choice.hpp"
#include "gui/window/procedure_choice.hpp"
#include "gui/window/start_summary.hpp"

#include <QDateTime>
#include <QDir>
#include <QFileDialog>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QSettings>
#include <QStandardPaths>
#include <QTimer>
#include <QVBoxLayout>

namespace zeroline::window {

using session::PortsModel;
using trace::InputError;

namespace {

const auto kPortKey = QStringLiteral("run/port");
const auto kOperatorKey = QStringLiteral("run/operator");
const auto kPlaceKey = QStringLiteral("run/place");
const auto kOrganisationKey = QStringLiteral("run/organisation");
const auto kAddressKey = QStringLiteral("run/address");
const auto kRecordsKey = QStringLiteral("run/records");

constexpr double kForgotten_s = 900.0; ///< nobody is there any more
constexpr int kColumnsAbreast = 150;   ///< width of the page with room for two columns

QString usual_records_folder()
{
    return QDir(QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation))
        .filePath(QStringLiteral("zeroline-records"));
}

} // namespace

StartPage::StartPage(QWidget* parent) : QWidget(parent)
{
    named(this, "startPage", tr("begin a run"));
    auto* inner = new QWidget;
    auto* layout = new QVBoxLayout(inner);
    layout->setContentsMargins(kPage_px, kGap_px, kPage_px, kGap_px);
    layout->setSpacing(kGap_px);
    prepared_ = text_label("prepared", tr("what this run stands for"));
    prepared_->hide();
    layout->addWidget(prepared_);
    columns_ = new QBoxLayout(QBoxLayout::LeftToRight);
    columns_->setSpacing(kGap_px);
    for (auto* column : {column_of({card_of({make_unit()}), card_of({make_instrument(), make_bench()})}),
                         column_of({card_of({make_person()}), make_cautions()})}) {
        static_cast<QVBoxLayout*>(column->layout())->addStretch(1);
        columns_->addWidget(column, 1);
    }
    layout->addLayout(columns_);
    layout->addWidget(make_checks());
    layout->addStretch(1);
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(0, 0, 0, kGap_px);
    trouble_ = text_label("trouble", tr("what is wrong"));
    auto* bar = column_of({trouble_, make_buttons()});
    bar->layout()->setContentsMargins(kPage_px, 0, kPage_px, 0);
    outer->addWidget(scrolled(inner, "startScroll", tr("begin a run")), 1);
    outer->addWidget(bar);
    connect_actions();
    recall();
    look_again();
}

QWidget* StartPage::make_unit()
{
    asset_ = text_field("startAsset", tr("asset, scanned or typed"));
    asset_->setPlaceholderText(tr("scan the unit to find its order"));
    order_ =
        new FileChoice(QStringLiteral("order"), tr("work order"), QStringLiteral("orders"), tr("none is chosen yet"));
    auto* box = new QWidget;
    auto* form = form_in(box);
    form->addRow(heading(tr("Work order")));
    form->addRow(tr("Asset"), column_of({asset_, known_ = new KnownUnit}));
    form->addRow(tr("Order"), order_);
    procedure_ = new ProcedureChoice;
    form->addRow(tr("Procedure"), procedure_);
    return box;
}

QWidget* StartPage::make_instrument()
{
    instrument_ = new FileChoice(QStringLiteral("instrument"), tr("instrument"), QStringLiteral("instruments"));
    auto* box = new QWidget;
    auto* form = form_in(box);
    form->addRow(heading(tr("Instrument")));
    form->addRow(tr("Instrument"), instrument_);
    return box;
}

QWidget* StartPage::make_bench()
{
    port_ = new PortChoice;
    fault_ = new FaultChoice;
    auto* box = new QWidget;
    auto* form = form_in(box);
    form->addRow(tr("Port"), port_);
    form->addRow(tr("Simulated fault"), fault_);
    return box;
}

QWidget* StartPage::make_person()
{
    operator_ = text_field("operator", tr("who runs it"));
    place_ = text_field("place", tr("where it is run"));
    organisation_ = text_field("organisation", tr("organisation that runs this bench"));
    address_ = text_field("address", tr("address of the organisation"));
    whose_ = row_of({organisation_, address_});
    records_ = text_field("records", tr("folder where records are kept"));
    auto* browse = button("recordsBrowse", tr("Choose..."));
    browse->setAccessibleName(tr("choose the folder where records are kept"));
    connect(browse, &QPushButton::clicked, this, &StartPage::choose_folder);
    auto* folder = row_of({records_, browse});
    let_grow(folder, 0);
    auto* box = new QWidget;
    auto* form = form_in(box);
    form->addRow(heading(tr("Run")));
    form->addRow(tr("Operator"), operator_);
    form->addRow(tr("Place"), place_);
    form->addRow(tr("Organisation, address"), whose_);
    form->addRow(tr("Records in"), folder);
    return box;
}

/// Folded up until somebody wants it: most of it is looked at while the run goes on.
QWidget* StartPage::make_checks()
{
    unfold_checks_ = button("unfoldChecks", tr("Checklist and air in the room"));
    unfold_checks_->setCheckable(true);
    checks_box_ = column_of({});
    checks_box_->hide();
    connect(unfold_checks_, &QPushButton::toggled, this, &StartPage::unfold_checks);
    auto* row = row_of({unfold_checks_});
    put_gap(row);
    return card_of({row, checks_box_});
}

/// What was opened comes into sight.
void StartPage::unfold_checks(bool open)
{
    checks_box_->setVisible(open);
    if (open) {
        auto* scroll = findChild<QScrollArea*>(QStringLiteral("startScroll"));
        QTimer::singleShot(0, this, [this, scroll] { // once the page knows how long it is
            const auto top = unfold_checks_->mapTo(scroll->widget(), QPoint(0, -kGap_px));
            scroll->verticalScrollBar()->setValue(top.y());
        });
    }
}

QWidget* StartPage::make_cautions()
{
    cautions_ = text_label("cautions", tr("before a run"));
    return card_of({heading(tr("Before a run")), cautions_});
}

QWidget* StartPage::make_buttons()
{
    begin_ = primary(button("begin", tr("Begin the run  [Ctrl+Enter]")));
    begin_->setShortcut(QKeySequence(Qt::CTRL | Qt::Key_Return));
    open_record_ = button("openRecord", tr("Look at a record..."));
    begin_unsealed_ = button("beginUnsealed", tr("Begin all the same: not to be sealed"));
    begin_unsealed_->hide();
    auto* row = row_of({begin_, begin_unsealed_, open_record_});
    put_gap(row, 2);
    return row;
}

void StartPage::connect_actions()
{
    connect(order_, &FileChoice::chosen, this, &StartPage::look_again);
    connect(instrument_, &FileChoice::chosen, this, &StartPage::look_again);
    connect(procedure_, &ProcedureChoice::chosen, this, &StartPage::look_again);
    connect(order_, &FileChoice::wantsNew, this, [this] { Q_EMIT wantsOrder({}); });
    connect(order_, &FileChoice::wantsEdit, this, &StartPage::wantsOrder);
    connect(instrument_, &FileChoice::wantsNew, this, [this] { Q_EMIT wantsInstrument({}); });
    connect(instrument_, &FileChoice::wantsEdit, this, &StartPage::wantsInstrument);
    connect(port_, &PortChoice::changed, this, &StartPage::show_port);
    connect(asset_, &QLineEdit::returnPressed, this, [this] { take_asset(asset_->text()); });
    connect(known_, &KnownUnit::found, this, &StartPage::unit_is_known);
    connect(begin_, &QPushButton::clicked, this, &StartPage::begins);
    connect(begin_unsealed_, &QPushButton::clicked, this, [this] {
        unsealed_ = true;
        Q_EMIT begins();
        unsealed_ = false;
    });
    connect(asset_, &QLineEdit::textChanged, this, [this] { trouble_->clear(); });
    connect(open_record_, &QPushButton::clicked, this, &StartPage::open_record);
}

void StartPage::recall()
{
    const QSettings settings;
    operator_->setText(settings.value(kOperatorKey).toString());
    place_->setText(settings.value(kPlaceKey).toString());
    organisation_->setText(settings.value(kOrganisationKey).toString());
    address_->setText(settings.value(kAddressKey).toString());
    records_->setText(settings.value(kRecordsKey, usual_records_folder()).toString());
    const auto port = settings.value(kPortKey).toString().toStdString();
    // The virtual bench is only ever chosen by hand: nobody is to take it for the instrument used last.
    choose_port(port == PortsModel::kVirtualBench ? std::string{} : port);
}

void StartPage::choose_port(const std::string& path) { port_->choose(path); }

void StartPage::remember() const
{
    order_->remember();
    instrument_->remember();
    procedure_->remember();
    QSettings settings;
    settings.setValue(kOperatorKey, operator_->text());
    settings.setValue(kPlaceKey, place_->text());
    settings.setValue(kOrganisationKey, organisation_->text());
    settings.setValue(kAddressKey, address_->text());
    settings.setValue(kRecordsKey, records_->text());
    settings.setValue(kPortKey, QString::fromStdString(port()));
}

void StartPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    order_->refresh();
    instrument_->refresh();
    look_again();
    asset_->setFocus(); // it begins with the unit
}

std::string StartPage::port() const { return port_->port(); }

records::Read<verification::WorkOrder> StartPage::order() const { return chosen_order(order_->file()); }

records::Read<trace::Instrument> StartPage::instrument() const { return chosen_instrument(instrument_->file()); }

std::optional<std::filesystem::path> StartPage::bench_file() const
{
    return bench_file_.empty() ? records::usual_bench_file() : std::optional<std::filesystem::path>(bench_file_);
}

/// The bench file where there is one; else whose bench it is, as typed; for the demonstration an invented one.
void StartPage::add_bench(session::RunSetUp& made) const
{
    made.bench_file = bench_file();
    if (made.bench_file) {
        made.bench = records::load_bench(*made.bench_file);
    } else if (!organisation_->text().trimmed().isEmpty() || !address_->text().trimmed().isEmpty()) {
        made.bench = session::bench_of(value_of(organisation_), value_of(address_));
    } else if (order_->file() == FileChoice::kDemonstration) {
        made.bench = session::bench_from_text(demonstration_text("bench.json"));
    }
}

session::InstrumentState StartPage::instrument_check() const
{
    if (instrument_->file() == FileChoice::kDemonstration) {
        return {};
    }
    const bool simulated = port() == PortsModel::kVirtualBench;
    return session::instrument_state(instrument_->file().toStdString(),
                                     QDate::currentDate().toString(Qt::ISODate).toStdString(), simulated);
}

session::RunSetUp StartPage::set_up() const
{
    if (!port_->why_it_waits().isEmpty()) {
        throw InputError(port().empty() ? "port" : port(), port().empty() ? "none is chosen" : "is not there",
                         "the port of the instrument, or the virtual bench");
    }
    session::RunSetUp made;
    made.wait_s = kForgotten_s;
    made.reminds = true;
    made.order = order();
    refuse_another_unit(made.order.meaning);
    made.instrument = instrument();
    if (instrument_->file() != FileChoice::kDemonstration) {
        made.instrument_file = instrument_->file().toStdString();
    }
    add_bench(made);
    made.procedure = procedure_->procedure(made.bench_file, made.order.meaning.occasion);
    made.run_operator = operator_->text().trimmed().toStdString();
    made.place = place_->text().trimmed().toStdString();
    if (checks_ != nullptr) {
        made.checklist = checks_->checklist();
        made.environment = checks_->environment();
    }
    session::note_instrument(made.checklist, instrument_check());
    made.replaces = replaces_;
    made.as_found = as_found_;
    made.port = port();
    if (made.port == PortsModel::kVirtualBench) {
        fault_->add_bench(made);
        if (made.practice) {
            return made;
        }
    } else { // what is simulated says nothing about a unit: it may stay unsealed
        check_for_a_real_port(made);
    }
    const auto parent = records_->text().trimmed();
    if (!QDir().mkpath(parent)) {
        throw InputError(parent.toStdString(), "cannot be created", "a folder that can be written");
    }
    made.folder = session::new_record_folder(parent.toStdString(), made.order.meaning,
                                             QDateTime::currentDateTime().toString(QStringLiteral("yyyy-MM-dd-HHmm")));
    made.key = records::SigningKey::load_or_make(records::key_file(made.bench_file), ask_above(window()));
    session::count_attempts(made);
    return made;
}

void StartPage::look_again()
{
    trouble_->clear();
    begin_unsealed_->hide();
    bool sound = true;
    const auto look = [&](FileChoice* choice, const auto& summary) {
        try {
            choice->show_summary(summary(), false);
        } catch (const InputError& error) {
            choice->show_summary(QString::fromUtf8(error.what()), true);
            sound = false;
        }
    };
    const bool chosen = !order_->file().isEmpty();
    unfold_checks_->setEnabled(chosen);
    if (chosen) {
        look(order_, [&] {
            const auto read = order();
            sound = show_procedure(read.meaning);
            cautions_->setText(cautions_text(read.meaning));
            return order_summary(read.meaning);
        });
    } else {
        order_->show_summary(tr("Scan the unit, or choose its order: only then can the run begin."), false);
        cautions_->setText(cautions_text({}));
    }
    look(instrument_, [&] { return instrument_summary(instrument().meaning, instrument_check()); });
    begin_->setEnabled(sound && chosen);
    // A bench file says whose bench it is.
    whose_->setEnabled(!bench_file());
    show_port();
}

void StartPage::show_port() { fault_->setEnabled(port() == PortsModel::kVirtualBench); }

void StartPage::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    stand_abreast(*this, kColumnsAbreast, {columns_});
}

/// Also says what is wrong with it. False: it is not the one for this order.
bool StartPage::show_procedure(const verification::WorkOrder& order)
{
    if (ask_which_occasion(order)) {
        return false;
    }
    const auto procedure = procedure_->procedure(bench_file(), order.occasion);
    procedure_->show_summary(procedure_summary(procedure));
    show_checklist(order, procedure);
    return true;
}

/// A list of its own for every unit and occasion: nothing that was ticked for one stands there for the next.
void StartPage::show_checklist(const verification::WorkOrder& order,
                               const std::optional<records::Read<verification::Procedure>>& procedure)
{
    const auto text = session::text_of(order) + (procedure ? procedure->text : std::string());
    if (text == checks_for_) {
        return;
    }
    checks_for_ = text;
    const auto air = checks_ != nullptr ? checks_->environment() : verification::Environment{};
    delete checks_;
    checks_ = new ChecklistPanel(session::checklist_of(order.occasion, procedure), QStringLiteral("start"));
    checks_->put({}, air);
    checks_box_->layout()->addWidget(checks_);
}

void StartPage::begin_anew()
{
    prepare(std::nullopt, std::nullopt, {});
    order_->forget();
    checks_for_.clear(); // also where the next unit has the same order
    unfold_checks_->setChecked(false);
}

void StartPage::choose_order(const QString& file) { order_->choose(file); }

void StartPage::choose_instrument(const QString& file) { instrument_->choose(file); }

void StartPage::choose_procedure(const QString& name_or_file) { procedure_->choose(name_or_file); }

void StartPage::take_asset(const QString& text)
{
    const auto asset = text.trimmed();
    asset_->setText(asset);
    known_->look_for(asset);
    if (const auto used = KnownUnit::order_used_for(asset); !used.isEmpty()) {
        return choose_order(used);
    }
    try {
        if (QString::fromStdString(order().meaning.unit.asset) == asset) {
            return; // it is chosen already
        }
    } catch (const InputError&) {
        // told beside the order
    }
    show_trouble(tr("None of the orders used last is for %1: open its order, or make one. The run does not begin with "
                    "another unit's.")
                     .arg(asset));
}

QString StartPage::records_folder() const { return records_->text().trimmed(); }

void StartPage::use_register(RegisterReader* reader) { known_->use_register(reader); }

/// The order of its last record serves where none was used on this computer.
void StartPage::unit_is_known(const QString& asset, const QString& order)
{
    if (order.isEmpty() || asset_->text() != asset || !KnownUnit::order_used_for(asset).isEmpty()) {
        return;
    }
    trouble_->clear();
    choose_order(order);
    prepared_->setText(tr("The order is that of its last record: edit it where this check has another one."));
    prepared_->show();
}

void StartPage::show_trouble(const QString& sentence) { trouble_->setText(sentence); }

void StartPage::prepare(std::optional<verification::Replaces> replaces, std::optional<session::AsFound> as_found,
                        const QString& why)
{
    replaces_ = std::move(replaces);
    as_found_ = std::move(as_found);
    asset_->clear(); // nothing of the unit before stands there for the next
    known_->look_for({});
    prepared_->setText(why);
    prepared_->setVisible(!why.isEmpty());
}

void StartPage::choose_folder()
{
    const auto folder = QFileDialog::getExistingDirectory(this, tr("Where records are kept"), records_->text());
    if (!folder.isEmpty()) {
        records_->setText(folder);
    }
}

void StartPage::open_record()
{
    const auto folder = QFileDialog::getExistingDirectory(this, tr("Look at a record"), records_->text());
    if (!folder.isEmpty()) {
        Q_EMIT wantsRecord(folder);
    }
}

} // namespace zeroline::window
