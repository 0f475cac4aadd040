#pragma once

#include "gui/session/run_files.hpp"

#include <QWidget>

class QComboBox;
class QLabel;
class QPushButton;

namespace zeroline::window {

/// Choosing an order or an instrument: those used last, the demonstration's, or any file; made anew or edited in a
/// form.
class FileChoice : public QWidget {
    Q_OBJECT
public:
    /// Stands for the file that is built in.
    static const QString kDemonstration;

    /// `name` prefixes the objects' names; `kind` is the key of the files used last. Where `ask` is given none of them
    /// is chosen until somebody does, and `ask` stands in its place.
    FileChoice(const QString& name, const QString& spoken, const QString& kind, const QString& ask = {},
               QWidget* parent = nullptr);

    [[nodiscard]] QString file() const; ///< empty: none; kDemonstration: the one built in
    void choose(const QString& file);
    void forget();         ///< what was chosen was for another unit
    void remember() const; ///< it was used
    void refresh();        ///< the files used last may have changed
    void show_summary(const QString& text, bool trouble);

Q_SIGNALS:
    void chosen();
    void wantsNew();
    void wantsEdit(const QString& file);

private:
    void open();
    void add_first(const QString& file);

    session::RecentFiles recent_;
    QComboBox* files_;
    QPushButton *open_, *new_, *edit_;
    QLabel* summary_;
};

} // namespace zeroline::window
