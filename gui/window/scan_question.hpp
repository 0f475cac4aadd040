#pragma once

#include "gui/session/checklist.hpp"

#include <QWidget>

class QLabel;

namespace zeroline::window {

/// Which unit is on the bench, where a code was scanned that is not that of the order: a band above the run, which goes
/// on. The answer is an item of the checklist: it stands in the record.
class ScanQuestion : public QWidget {
    Q_OBJECT
public:
    explicit ScanQuestion(QWidget* parent = nullptr);

    void ask(const QString& code, const verification::UnitUnderTest& unit);
    void close_it() { code_.clear(); } ///< the right code came after all, or the unit is given back
    bool take_key(int key);            ///< true: it was an answer
    [[nodiscard]] bool open() const { return !code_.isEmpty(); }

Q_SIGNALS:
    void answered(const zeroline::verification::ChecklistItem& answer);

private:
    void answer(bool is_the_unit);

    QString code_; ///< empty: nothing is asked
    QLabel* question_;
};

} // namespace zeroline::window
