#pragma once

#include "gui/session/bench_session.hpp"

#include <QWidget>

#include <initializer_list>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

class QComboBox;
class QDoubleSpinBox;
class QLineEdit;

namespace zeroline::window {

/// A box for a pressure: the magnitude is typed, the sign stands in front.
[[nodiscard]] QDoubleSpinBox* pressure_box(const char* name, const QString& spoken, bool negative);
[[nodiscard]] QDoubleSpinBox* duration_box(const char* name, const QString& spoken);
/// Numbers of any kind, with a unit behind.
[[nodiscard]] QDoubleSpinBox* number_box(const char* name, const QString& spoken, double low, double high, int decimals,
                                         const QString& unit = {});

/// What a unit is set to, preset by preset: pressures, durations, trigger, flow, alarms, mode. Empty until somebody
/// types what the unit shows, or says by one key that all of it is as prescribed.
class SettingsFields : public QWidget {
    Q_OBJECT
public:
    /// `prefix` goes in front of the objects' names.
    SettingsFields(const verification::WorkOrder& order, const QString& prefix, QWidget* parent = nullptr);

    void put(const std::map<std::string, verification::Settings>& settings);
    /// Of presets of which anything was given.
    [[nodiscard]] std::map<std::string, verification::Settings> settings() const;
    /// One key for all of it.
    void say_as_prescribed();
    /// It was said by that key, and nothing was typed since: stated, not copied out.
    [[nodiscard]] bool stated_as_prescribed() const noexcept { return stated_; }

Q_SIGNALS:
    void edited();

private:
    struct Row {
        verification::Preset preset;
        verification::Settings rest; ///< what has no field
        QDoubleSpinBox *insufflation = nullptr, *exsufflation = nullptr;
        QDoubleSpinBox *insufflation_s = nullptr, *exsufflation_s = nullptr, *pause_s = nullptr;
        QComboBox *trigger = nullptr, *flow = nullptr, *alarms = nullptr;
        QLineEdit* mode = nullptr;
    };
    [[nodiscard]] QWidget* make_row(const verification::Preset& preset);
    [[nodiscard]] QDoubleSpinBox* open_box(QDoubleSpinBox* box);
    [[nodiscard]] QComboBox* choice(const char* what, const QString& spoken,
                                    std::initializer_list<std::pair<QString, int>> choices);
    void put_row(Row& row, const verification::Settings& settings);
    [[nodiscard]] static verification::Settings settings_of(const Row& row);
    void note_edit();

    QString prefix_;
    std::vector<Row> rows_;
    bool stated_ = false;
    bool putting_ = false; ///< what changes now nobody typed
};

/// What the unit displayed in the long holds, a row a preset; what was not read stays so.
class DisplayedFields : public QWidget {
    Q_OBJECT
public:
    /// `preset`: that one alone; empty: all. `prefix` goes in front of the objects' names.
    explicit DisplayedFields(const verification::WorkOrder& order, const QString& prefix,
                             const std::string& preset = {}, QWidget* parent = nullptr);

    void put(const std::vector<verification::Displayed>& displayed);
    [[nodiscard]] std::vector<verification::Displayed> displayed() const;

Q_SIGNALS:
    void edited();

private:
    struct Row {
        std::string preset;
        QDoubleSpinBox *insufflation, *exsufflation;
    };
    std::vector<Row> rows_;
};

} // namespace zeroline::window
