#pragma once

#include "gui/session/result_view.hpp"

#include <QAbstractListModel>

#include <vector>

namespace zeroline::session {

/// Findings and reasons of a result, one a row: critical first, then what stands against a pass, then notes.
class FindingsModel : public QAbstractListModel {
    Q_OBJECT
public:
    enum Role { ToneRole = Qt::UserRole + 1, CodeRole };

    using QAbstractListModel::QAbstractListModel;

    void show(const ResultView& result);
    void clear();

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;

private:
    struct Row {
        QString code, text;
        Tone tone = Tone::none;
    };
    std::vector<Row> rows_;
};

} // namespace zeroline::session
