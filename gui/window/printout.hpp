#pragma once

#include <QString>

#include <filesystem>
#include <optional>

class QPrinter;

namespace zeroline::window {

/// What of a record goes to paper.
struct Printout {
    std::filesystem::path folder;
    QString what;                                    ///< "record", "label" or "home"
    std::optional<std::filesystem::path> bench_file; ///< whose keys are known; none: that of the usual place

    /// To that file, whole or not at all. Throws trace::InputError.
    void save_pdf(const QString& file) const;
    /// Page by page, on paper of the size that the sheet has. Throws trace::InputError.
    void print(QPrinter& printer) const;
};

} // namespace zeroline::window
