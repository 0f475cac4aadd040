#pragma once

#include <QLabel>

#include <string>

namespace zeroline::window {

class RegisterReader;

/// What the register knows of the unit that was scanned: when it was checked last and what came of it. Its last record
/// holds an order too, for a unit whose order was never used on this computer.
class KnownUnit : public QLabel {
    Q_OBJECT
public:
    explicit KnownUnit(QWidget* parent = nullptr);

    void use_register(RegisterReader* reader) { reader_ = reader; }
    /// Asks for that unit; another one asked for before is of no interest any more. Empty: none.
    void look_for(const QString& asset);

    /// The order used last that has this unit; empty: none.
    [[nodiscard]] static QString order_used_for(const QString& asset);

Q_SIGNALS:
    /// It is known. `order`: a copy of the order of its last record, empty where that record is not where it was.
    void found(const QString& asset, const QString& order);

private:
    RegisterReader* reader_ = nullptr;
    QString asset_;
};

} // namespace zeroline::window
