#pragma once

#include "gui/records/procedure_file.hpp"
#include "gui/session/run_files.hpp"

#include <QWidget>

#include <filesystem>
#include <optional>

class QComboBox;
class QLabel;

namespace zeroline::window {

/// What is done, step by step: as this bench does it on the occasion, one that the program carries, or a file.
class ProcedureChoice : public QWidget {
    Q_OBJECT
public:
    explicit ProcedureChoice(QWidget* parent = nullptr);

    /// What was chosen, for an order of that occasion; none: the guided run. Throws trace::InputError.
    [[nodiscard]] std::optional<records::Read<verification::Procedure>>
    procedure(const std::optional<std::filesystem::path>& bench_file, verification::Occasion occasion) const;
    /// The occasion of the one chosen; none: it fits any order, or is that of the bench. Throws trace::InputError.
    [[nodiscard]] std::optional<verification::Occasion> only_for() const;
    void choose(const QString& name_or_file);
    void remember() const; ///< a file that was used is offered again
    void show_summary(const QString& text);

Q_SIGNALS:
    void chosen();

private:
    void open();

    session::RecentFiles recent_;
    QComboBox* choice_;
    QLabel* summary_;
};

/// One line about it, for the page where a run begins.
[[nodiscard]] QString procedure_summary(const std::optional<records::Read<verification::Procedure>>& procedure);

} // namespace zeroline::window
