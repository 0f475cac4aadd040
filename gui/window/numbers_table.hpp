#pragma once

#include "gui/session/judgement_model.hpp"

#include <QStringList>
#include <QTableView>

#include <vector>

namespace zeroline::window {

/// The whole table to the clipboard, as text and as CSV.
void copy_numbers(const session::JudgementModel& numbers);

/// A table of numbers to be read, not edited: rows fit for reading at arm's length, one tab stop.
///
/// Names and verdicts wrap between words, numbers are never cut. Where that is not narrow enough, columns that are
/// needed least give way, and what the numbers are called and come to stays in sight. Ctrl+C copies it.
class NumbersTable : public QTableView {
    Q_OBJECT
public:
    /// The model outlives the table.
    NumbersTable(const char* name, const QString& spoken, session::JudgementModel* model);

    /// The heads of the columns that gave way.
    [[nodiscard]] QStringList left_out() const { return left_out_; }

    /// As high as all of its rows: for a page that scrolls.
    void show_whole();

Q_SIGNALS:
    void leftOutChanged(const QStringList& columns);

protected:
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    struct Need {
        int least_px = 0; ///< no word and no number is cut
        int on_one_line_px = 0;
        bool shown = true;
    };
    [[nodiscard]] Need need_of(int column) const;
    [[nodiscard]] std::vector<Need> needs() const;
    [[nodiscard]] int room_px() const;
    void leave_out(std::vector<Need>& needs) const;
    void share_out();
    void take_height();
    void tell(const std::vector<Need>& needs);

    session::JudgementModel* numbers_;
    QStringList left_out_;
    bool whole_ = false;
};

} // namespace zeroline::window
