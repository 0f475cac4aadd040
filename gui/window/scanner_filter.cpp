#include "gui/window/scanner_filter.hpp"

#include <QCoreApplication>
#include <QWidget>

#include <utility>

namespace zeroline::window {

namespace {

constexpr int kBetweenKeys_ms = 35;       ///< scanners type a key in 1-20 ms, people in 60 and more
constexpr std::size_t kShortestBurst = 4; ///< two or three keys so close together may be a person's

bool is_end(const QKeyEvent& key) { return key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter; }

bool is_printable(const QKeyEvent& key)
{
    const auto special = key.modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier);
    return !special && !key.text().isEmpty() && key.text().at(0).isPrint();
}

} // namespace

ScannerFilter::ScannerFilter(std::function<void(const QString&)> take, QObject* parent)
    : QObject(parent), take_(std::move(take))
{
    pause_.setSingleShot(true);
    pause_.setTimerType(Qt::PreciseTimer);
    connect(&pause_, &QTimer::timeout, this, &ScannerFilter::end_of_burst);
}

bool ScannerFilter::is_burst() const { return held_.size() >= kShortestBurst; }

bool ScannerFilter::eventFilter(QObject* watched, QEvent* event)
{
    auto* target = qobject_cast<QWidget*>(watched);
    const bool key_event = event->type() == QEvent::KeyPress || event->type() == QEvent::ShortcutOverride ||
                           event->type() == QEvent::KeyRelease;
    if (replaying_ || target == nullptr || !key_event) {
        return false;
    }
    const auto& key = *static_cast<QKeyEvent*>(event);
    if (key.isAutoRepeat()) {
        return false;
    }
    if (event->type() == QEvent::ShortcutOverride) {
        // Accepting it keeps shortcuts from acting on a key that is held back.
        if (is_printable(key) || (is_end(key) && !held_.empty())) {
            event->accept();
            return true;
        }
        return false;
    }
    if (event->type() == QEvent::KeyRelease) {
        return is_printable(key) || (is_end(key) && !held_.empty());
    }
    return hold_back(target, key);
}

bool ScannerFilter::hold_back(QWidget* target, const QKeyEvent& key)
{
    if (is_printable(key)) {
        held_.push_back({target, std::unique_ptr<QKeyEvent>(key.clone())});
        pause_.start(kBetweenKeys_ms);
        return true;
    }
    if (is_end(key) && !held_.empty()) {
        if (is_burst()) {
            end_of_burst();
            return true;
        }
        release_to_person();
    }
    return false;
}

void ScannerFilter::end_of_burst()
{
    pause_.stop();
    if (!is_burst()) {
        release_to_person();
        return;
    }
    QString text;
    for (const auto& key : std::exchange(held_, {})) {
        text += key.press->text();
    }
    take_(text);
}

void ScannerFilter::release_to_person()
{
    pause_.stop();
    replaying_ = true;
    for (auto& key : std::exchange(held_, {})) {
        if (key.target == nullptr) {
            continue;
        }
        const auto& press = *key.press;
        QCoreApplication::sendEvent(key.target, key.press.get());
        if (key.target != nullptr) {
            QKeyEvent release(QEvent::KeyRelease, press.key(), press.modifiers(), press.text());
            QCoreApplication::sendEvent(key.target, &release);
        }
    }
    replaying_ = false;
}

} // namespace zeroline::window
