#pragma once

#include "gui/session/record_saving.hpp"

#include <QWidget>

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace zeroline::window {

/// What is to be done with a result now: sign it, print it, go on to the next unit. Stands below the page, in sight
/// however far that is scrolled.
class SigningBar : public QWidget {
    Q_OBJECT
public:
    explicit SigningBar(QWidget* parent = nullptr);

    /// `can_sign`: a record can be made of what is shown, now; `can_print`: there is something to print.
    void show_state(bool can_sign, bool can_print);
    /// What was done last, or what is missing.
    void tell(const QString& sentence);
    /// Nobody has signed: is that to be left so?
    void ask_about_leaving();
    /// Who ran it is likely to sign it.
    void suggest_signer(const std::string& name);
    [[nodiscard]] session::Signing signing() const;
    /// A unit that did not pass cannot be released; nothing is said of a unit until somebody says it.
    void begin_unit(bool may_be_released);
    /// Name and role are filled in the next time.
    void remember() const;
    /// "record", "label", "tag" or "home": what is printed.
    [[nodiscard]] QString what() const;

Q_SIGNALS:
    void saves();
    void savesAndGoesOn();
    void prints();
    void savesPdf();
    void goesOn(); ///< to the next unit
    void leavesUnsigned();

private:
    QWidget* make_signing();
    QWidget* make_unit();
    void show_unit();
    [[nodiscard]] verification::Disposition disposition() const;
    QWidget* make_leaving();
    QWidget* make_buttons();

    QLabel* told_;
    QWidget *signing_, *leaving_, *unit_row_;
    QLineEdit *signer_, *role_, *reason_, *loaner_, *adjusted_by_;
    QComboBox *meaning_, *what_, *unit_;
    QCheckBox* authorised_;
    QPushButton *save_, *save_next_, *print_, *pdf_, *stay_, *next_;
};

} // namespace zeroline::window
