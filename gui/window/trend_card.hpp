#pragma once

#include "gui/session/unit_trend.hpp"

#include <QWidget>

#include <vector>

class QComboBox;
class QLabel;

namespace zeroline::charts {
class TrendChart;
}

namespace zeroline::window {

/// How quantities went over their visits: one is chosen, drawn, and what its line says stands below.
class TrendCard : public QWidget {
    Q_OBJECT
public:
    /// Names of the parts in the window, and what stands there where no visit has a figure.
    struct Words {
        const char *quantity, *chart, *drift;
        QString heading, nothing;
    };
    explicit TrendCard(Words words, QWidget* parent = nullptr);

    /// As UnitRegister::figures_of() or checks_of() gives them; the trend of the name `first` is shown before one
    /// chooses.
    void show_figures(const unit_register::Rows& figures, const QString& first = {});
    /// Nothing is known yet.
    void forget();

private:
    void show_quantity();

    const Words words_;
    std::vector<session::UnitTrend> trends_;
    QComboBox* quantity_;
    charts::TrendChart* chart_;
    QLabel* drift_;
};

} // namespace zeroline::window
