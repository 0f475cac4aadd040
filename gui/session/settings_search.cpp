#include "gui/session/settings_search.hpp"

#include "acquisition/trace/input_error.hpp"

#include <QMetaObject>
#include <QString>

#include <utility>

namespace zeroline::session {

SettingsSearch::~SettingsSearch() { stop(); }

void SettingsSearch::start(const std::string& port, const trace::PortSettings& first)
{
    stop();
    stop_ = false;
    running_ = true;
    serial::SearchSettings settings;
    settings.port = port;
    settings.first = first;
    settings.progress = [this](const std::string& next) {
        QMetaObject::invokeMethod(this, [this, next] { Q_EMIT tries(QString::fromStdString(next)); });
        return !stop_;
    };
    thread_ = std::thread([this, settings = std::move(settings)] {
        serial::SearchResult result;
        try {
            result = serial::find_settings(settings);
        } catch (const trace::InputError& error) {
            result.sentence = error.what();
        }
        QMetaObject::invokeMethod(this, [this, result = std::move(result)] { take(result); });
    });
}

void SettingsSearch::stop()
{
    stop_ = true;
    if (thread_.joinable()) {
        thread_.join();
    }
    running_ = false;
}

void SettingsSearch::take(serial::SearchResult result)
{
    if (!running_) {
        return;
    }
    stop();
    result_ = std::move(result);
    Q_EMIT finished();
}

} // namespace zeroline::session
