#pragma once

#include "acquisition/serial/find.hpp"

#include <QObject>

#include <atomic>
#include <thread>

namespace zeroline::session {

/// Tries the usual settings and languages on a port, on a thread of its own (serial::find_settings()). The signals come
/// in the thread of this object.
class SettingsSearch : public QObject {
    Q_OBJECT
public:
    using QObject::QObject;
    ~SettingsSearch() override; ///< stops searching and waits for it

    void start(const std::string& port, const trace::PortSettings& first);
    void stop();
    [[nodiscard]] bool running() const noexcept { return running_; }
    /// After finished(): the likeliest first.
    [[nodiscard]] const serial::SearchResult& result() const noexcept { return result_; }

Q_SIGNALS:
    void tries(const QString& what);
    void finished();

private:
    void take(serial::SearchResult result);

    std::thread thread_;
    std::atomic<bool> stop_{false};
    bool running_ = false;
    serial::SearchResult result_;
};

} // namespace zeroline::session
