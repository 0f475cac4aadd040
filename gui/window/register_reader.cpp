#include "gui/window/register_reader.hpp"

#include "gui/register/delivery.hpp"

#include <QThread>

namespace zeroline::window {

/// What lives in the other thread, and that thread.
struct RegisterReader::Asked {
    QThread thread;
    QObject there; ///< calls come to it
    std::string place;
    std::optional<UnitRegister> units;

    const UnitRegister& opened(const std::optional<std::filesystem::path>& bench_file)
    {
        const auto wanted = unit_register::register_place(bench_file);
        if (!units || place != wanted) {
            units.reset();
            units = UnitRegister::open(wanted);
            place = wanted;
        }
        return *units;
    }
};

RegisterReader::RegisterReader(QObject* parent) : QObject(parent), asked_(std::make_unique<Asked>())
{
    asked_->there.moveToThread(&asked_->thread);
    asked_->thread.start();
}

RegisterReader::~RegisterReader()
{
    // The connection belongs to the thread that opened it.
    QMetaObject::invokeMethod(
        &asked_->there, [this] { asked_->units.reset(); }, Qt::BlockingQueuedConnection);
    asked_->thread.quit();
    asked_->thread.wait();
}

void RegisterReader::use_bench_file(const std::optional<std::filesystem::path>& bench_file)
{
    file_ = unit_register::register_file(bench_file);
    bench_file_ = bench_file;
}

void RegisterReader::put(std::function<std::any(const UnitRegister&)> question,
                         std::function<void(const std::any&)> take, std::function<bool()> still)
{
    if (++waiting_ == 1) {
        Q_EMIT busyChanged(true);
    }
    QMetaObject::invokeMethod(&asked_->there, [this, wanted = bench_file_, question = std::move(question),
                                               take = std::move(take), still = std::move(still)] {
        std::function<void()> then = [] {};
        if (still()) {
            try {
                auto answer = question(asked_->opened(wanted));
                then = [take, still, answer = std::move(answer)] {
                    if (still()) {
                        take(answer);
                    }
                };
            } catch (const unit_register::NotUsableNow& error) {
                asked_->units.reset(); // a server that went away is asked anew
                then = [this, sentence = QString::fromUtf8(error.what())] { Q_EMIT trouble(sentence); };
            } catch (const std::exception& error) {
                then = [this, sentence = QString::fromUtf8(error.what())] { Q_EMIT trouble(sentence); };
            }
        }
        QMetaObject::invokeMethod(this, [this, then = std::move(then)] { answered(then); });
    });
}

void RegisterReader::answered(const std::function<void()>& take)
{
    if (--waiting_ == 0) {
        Q_EMIT busyChanged(false);
    }
    take();
}

} // namespace zeroline::window
