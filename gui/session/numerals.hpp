#pragma once

#include <QString>

#include <optional>
#include <string>

namespace zeroline::session {

/// Numbers as their reader writes them: decimal mark, minus sign, and what stands where there is nothing.
class Numerals {
public:
    /// On paper: a comma for "de" and its regions, a true minus sign.
    explicit Numerals(const std::string& language);
    /// As the default locale has it.
    [[nodiscard]] static Numerals of_the_screen();
    /// Signs that every terminal has and every program reads back.
    [[nodiscard]] static Numerals of_the_terminal();

    [[nodiscard]] QString fixed(const std::optional<double>& value, int decimals) const;
    [[nodiscard]] QString signed_fixed(const std::optional<double>& value, int decimals) const;
    /// The shortest text that reads back: "1.5".
    [[nodiscard]] QString plain(const std::optional<double>& value) const;
    [[nodiscard]] QString signed_plain(const std::optional<double>& value) const;
    /// Two figures that count, as uncertainties are stated (JCGM 100:2008, 7.2.6), at least `decimals` places and
    /// no more than six.
    [[nodiscard]] QString uncertainty(const std::optional<double>& value, int decimals) const;
    [[nodiscard]] const QString& nothing() const noexcept { return nothing_; }

private:
    Numerals(QString mark, QString minus, QString nothing);
    [[nodiscard]] QString in_words(const std::string& text) const;

    QString mark_, minus_, nothing_;
};

} // namespace zeroline::session
