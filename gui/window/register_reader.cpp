#include "gui/window/register_reader.hpp"

#include <QDeadlineTimer>
#include <QThread>

#include <optional>

namespace zeroline::window {

/// What lives in the other thread, and that thread.
struct RegisterReader::Asked {
    QThread thread;
    QObject there; ///< calls come to it
    std::string place;
    std::optional<UnitRegister> units;
    std::optional<unit_register::NotUsableNow> away; ///< why it could not be used a moment ago
    QDeadlineTimer try_again;
};

/// What was asked together is refused together: a server that does not answer is waited for once, not by each question.
const RegisterReader::UnitRegister& RegisterReader::opened(const unit_register::Bench& bench) const
{
    const auto wanted = unit_register::register_place(bench);
    auto& there = *asked_;
    if (there.units && there.place == wanted) {
        return *there.units;
    }
    if (there.away && there.place == wanted && !there.try_again.hasExpired()) {
        throw unit_register::NotUsableNow(*there.away);
    }
    there.units.reset();
    there.place = wanted;
    there.units = UnitRegister::open(wanted);
    there.away.reset();
    return *there.units;
}

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

void RegisterReader::use(const unit_register::Bench& bench)
{
    file_ = unit_register::register_file(bench.file);
    bench_ = bench;
}

void RegisterReader::deliver(const std::filesystem::path& saved, const records::Unlock& unlock,
                             std::function<void(const std::vector<std::string>& lines)> take)
{
    using Lines = std::vector<std::string>;
    put([bench = bench_, saved, unlock] { return std::any(unit_register::deliver(bench, saved, unlock)); },
        [take = std::move(take)](const std::any& lines) { take(std::any_cast<Lines>(lines)); }, [] { return true; });
}

void RegisterReader::put(std::function<std::any()> question, std::function<void(const std::any&)> take,
                         std::function<bool()> still)
{
    if (++waiting_ == 1) {
        Q_EMIT busyChanged(true);
    }
    QMetaObject::invokeMethod(
        &asked_->there, [this, question = std::move(question), take = std::move(take), still = std::move(still)] {
            std::function<void()> then = [] {};
            if (still()) {
                try {
                    auto answer = question();
                    then = [take, still, answer = std::move(answer)] {
                        if (still()) {
                            take(answer);
                        }
                    };
                } catch (const unit_register::NotUsableNow& error) {
                    constexpr int kTogether_ms = 500;
                    if (asked_->units || !asked_->away || asked_->try_again.hasExpired()) {
                        asked_->away = error;
                        asked_->try_again.setRemainingTime(kTogether_ms);
                    }
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
