#pragma once

#include <QKeyEvent>
#include <QObject>
#include <QPointer>
#include <QTimer>

#include <functional>
#include <memory>
#include <vector>

class QWidget;

namespace zeroline::window {

/// Tells a scanner's burst of keys from a person's: its text goes to the asset field, whatever has the focus.
///
/// A scanner is a keyboard that types a code in a few milliseconds a key and ends it with Enter. Keys are held back for
/// a moment too short to notice; those of a person then reach the widget they were meant for.
class ScannerFilter : public QObject {
    Q_OBJECT
public:
    /// `take` gets the text of a burst.
    ScannerFilter(std::function<void(const QString&)> take, QObject* parent);

    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    struct Key {
        QPointer<QWidget> target;
        std::unique_ptr<QKeyEvent> press;
    };
    [[nodiscard]] bool is_burst() const;
    bool hold_back(QWidget* target, const QKeyEvent& key);
    void end_of_burst();
    void release_to_person();

    std::function<void(const QString&)> take_;
    std::vector<Key> held_;
    QTimer pause_;
    bool replaying_ = false;
};

} // namespace zeroline::window
