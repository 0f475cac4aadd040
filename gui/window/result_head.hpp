#pragma once

#include "gui/session/result_view.hpp"

#include <QWidget>

class QLabel;

namespace zeroline::window {

/// What stays in sight above a result, however far down it is read: what it is no record of, the verdict, and of which
/// unit and order.
class ResultHead : public QWidget {
    Q_OBJECT
public:
    explicit ResultHead(QWidget* parent = nullptr);

    /// `seal`: what is wrong with the seal, as a sentence; empty where nothing is.
    void show_result(const session::ResultView& result, const QString& identity, const QString& seal);

private:
    QLabel *is_not_, *verdict_, *identity_;
};

} // namespace zeroline::window
