#pragma once

#include "gui/session/bench_session.hpp"

#include <QWidget>

#include <map>
#include <optional>
#include <string>
#include <vector>

class QDoubleSpinBox;

namespace zeroline::window {

/// A box for a pressure: the magnitude is typed, the sign stands in front.
[[nodiscard]] QDoubleSpinBox* pressure_box(const char* name, const QString& spoken, bool negative);
[[nodiscard]] QDoubleSpinBox* duration_box(const char* name, const QString& spoken);
/// Numbers of any kind, with a unit behind.
[[nodiscard]] QDoubleSpinBox* number_box(const char* name, const QString& spoken, double low, double high, int decimals,
                                         const QString& unit = {});

/// What a unit is set to, a row a preset: pressures and durations, as prescribed until somebody types otherwise.
class SettingsFields : public QWidget {
    Q_OBJECT
public:
    /// `prefix` goes in front of the objects' names.
    SettingsFields(const verification::WorkOrder& order, const QString& prefix, QWidget* parent = nullptr);

    void put(const std::map<std::string, verification::Settings>& settings);
    [[nodiscard]] std::map<std::string, verification::Settings> settings() const;

private:
    struct Row {
        std::string preset;
        verification::Settings rest; ///< what has no box
        QDoubleSpinBox *insufflation = nullptr, *exsufflation = nullptr;
        QDoubleSpinBox *insufflation_s = nullptr, *exsufflation_s = nullptr, *pause_s = nullptr;
    };
    std::vector<Row> rows_;
};

/// What the unit displayed in the long holds, a row a preset; what was not read stays so.
class DisplayedFields : public QWidget {
    Q_OBJECT
public:
    explicit DisplayedFields(const verification::WorkOrder& order, QWidget* parent = nullptr);

    void put(const std::vector<verification::Displayed>& displayed);
    [[nodiscard]] std::vector<verification::Displayed> displayed() const;

private:
    struct Row {
        std::string preset;
        QDoubleSpinBox *insufflation, *exsufflation;
    };
    std::vector<Row> rows_;
};

} // namespace zeroline::window
