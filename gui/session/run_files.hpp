#pragma once

#include "gui/records/evidence_files.hpp"

#include <QString>
#include <QStringList>

#include <string>

namespace zeroline::session {

/// Orders and instruments from text, with the same checks and messages as from a file. Throw trace::InputError.
[[nodiscard]] records::Read<verification::WorkOrder> order_from_text(const std::string& text);
[[nodiscard]] records::Read<trace::Instrument> instrument_from_text(const std::string& text);
[[nodiscard]] records::Read<verification::Bench> bench_from_text(const std::string& text);
/// A bench of which no more is known than whose it is; the house rules are those built in.
[[nodiscard]] records::Read<verification::Bench> bench_of(const std::string& organisation, const std::string& address);

/// As they are written to a file: what reads back to the same order or instrument.
[[nodiscard]] std::string text_of(const verification::WorkOrder& order);
[[nodiscard]] std::string text_of(const trace::Instrument& instrument);

/// Files that were used last, the newest first, kept in the user's settings; those that are gone are left out.
class RecentFiles {
public:
    /// `kind` is the key in the settings: "orders", "instruments".
    explicit RecentFiles(QString kind) : kind_(std::move(kind)) {}

    [[nodiscard]] QStringList files() const;
    void used(const QString& file) const;

private:
    QString kind_;
};

} // namespace zeroline::session
