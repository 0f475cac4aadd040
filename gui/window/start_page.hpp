#pragma once

#include "gui/session/bench_session.hpp"
#include "gui/session/instrument_state.hpp"
#include "gui/session/ports_model.hpp"

#include <QWidget>

#include <optional>

class QBoxLayout;
class QLabel;
class QLineEdit;
class QPushButton;

namespace zeroline::window {

class ChecklistPanel;
class FaultChoice;
class FileChoice;
class KnownUnit;
class PortChoice;
class RegisterReader;
class ProcedureChoice;

/// Where a run begins: work order, instrument, port, who and where. What is wrong is said here, in the words of the
/// files.
class StartPage : public QWidget {
    Q_OBJECT
public:
    explicit StartPage(QWidget* parent = nullptr);

    /// Everything that a run needs, read and checked. Throws trace::InputError.
    [[nodiscard]] session::RunSetUp set_up() const;
    /// House rules and organisation; empty: those of the usual place.
    void use_bench_file(const std::string& file) { bench_file_ = file; }
    [[nodiscard]] QString records_folder() const;
    /// Where the unit that was scanned is looked up.
    void use_register(RegisterReader* reader);
    /// Looks at what is chosen and says what is wrong with it.
    void look_again();
    void choose_order(const QString& file);
    void choose_instrument(const QString& file);
    /// A procedure by its name, or its file.
    void choose_procedure(const QString& name_or_file);
    /// Nothing of the unit before stands there for the next.
    void begin_anew();
    /// A path, also of a port that is not there, or PortsModel::kVirtualBench.
    void choose_port(const std::string& path);
    /// An order or an instrument, told by what the file holds; a trace is handed on as wantsTrace().
    void take_file(const QString& file);
    /// The files chosen, to judge a trace by. Throws trace::InputError where one of them is built in.
    [[nodiscard]] records::EvidenceFiles files_for(const QString& trace) const;
    /// A scanner read it: the order used last that has this unit is chosen.
    void take_asset(const QString& text);
    void show_trouble(const QString& sentence);
    /// It was used: remembered for the next time.
    void remember() const;
    /// What was handed over for this start (as-left run, another attempt); forgotten by the next unit.
    void prepare(std::optional<verification::Replaces> replaces, std::optional<session::AsFound> as_found,
                 const QString& why);

    /// Throw trace::InputError.
    [[nodiscard]] records::Read<verification::WorkOrder> order() const;
    [[nodiscard]] records::Read<trace::Instrument> instrument() const;
    [[nodiscard]] session::InstrumentState instrument_check() const;
    [[nodiscard]] std::string port() const;

Q_SIGNALS:
    void begins();
    void wantsOrder(const QString& file);      ///< edit it; empty: a new one
    void wantsInstrument(const QString& file); ///< edit it; empty: a new one
    void wantsRecord(const QString& folder);   ///< look at a record that was saved
    void wantsTrace(const QString& file);      ///< look at a trace from elsewhere

protected:
    void showEvent(QShowEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    QWidget* make_unit();
    QWidget* make_instrument();
    QWidget* make_bench();
    QWidget* make_person();
    QWidget* make_checks();
    QWidget* make_cautions();
    void unfold_checks(bool open);
    QWidget* make_buttons();
    void connect_actions();
    void recall();
    void choose_folder();
    void open_record();
    [[nodiscard]] bool show_procedure(const verification::WorkOrder& order);
    [[nodiscard]] bool ask_which_occasion(const verification::WorkOrder& order);
    void show_checklist(const verification::WorkOrder& order,
                        const std::optional<records::Read<verification::Procedure>>& procedure);
    void show_port();
    void unit_is_known(const QString& asset, const QString& order);
    [[nodiscard]] std::optional<std::filesystem::path> bench_file() const;
    void check_for_a_real_port(const session::RunSetUp& made) const;
    void refuse_another_unit(const verification::WorkOrder& order) const;
    void add_bench(session::RunSetUp& made) const;

    FileChoice *order_, *instrument_;
    PortChoice* port_;
    KnownUnit* known_;
    ProcedureChoice* procedure_;
    FaultChoice* fault_;
    QLineEdit *asset_, *operator_, *place_, *records_, *organisation_, *address_;
    QWidget* whose_;
    QWidget* checks_box_;
    ChecklistPanel* checks_ = nullptr;
    std::string checks_for_; ///< order and procedure whose list stands there
    QLabel *cautions_, *trouble_, *prepared_;
    QBoxLayout* columns_;
    QPushButton *begin_, *begin_unsealed_, *open_record_, *unfold_checks_;
    bool unsealed_ = false; ///< what sealing needs may stay open: somebody said so
    std::string bench_file_;
    std::optional<verification::Replaces> replaces_;
    std::optional<session::AsFound> as_found_;
};

} // namespace zeroline::window
