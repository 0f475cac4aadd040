#pragma once

#include "gui/register/delivery.hpp"
#include "gui/register/unit_register.hpp"

#include <QObject>
#include <QString>

#include <any>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace zeroline::window {

/// Asks the register in a thread of its own, one question after the other, so that the window never waits for it. The
/// register is opened by the first question, once. Answers come back in this object's thread; none comes after it is
/// gone.
class RegisterReader : public QObject {
    Q_OBJECT
public:
    explicit RegisterReader(QObject* parent = nullptr);
    ~RegisterReader() override;

    /// The register of this bench; another one than before is opened anew.
    void use(const unit_register::Bench& bench);
    /// The bench's own register file; the notes of runs are kept beside it, also where the register is on a server.
    [[nodiscard]] std::filesystem::path file() const { return file_; }
    [[nodiscard]] const unit_register::Bench& bench() const noexcept { return bench_; }

    using UnitRegister = unit_register::UnitRegister;

    /// `question` is called in the other thread, `take` here with its answer. `still`: false once nobody wants the
    /// answer any more; the question is then left out, and so is the answer. What goes wrong is told by trouble().
    template <typename Answer>
    void ask(
        std::function<Answer(const UnitRegister&)> question, std::function<void(Answer)> take,
        std::function<bool()> still = [] { return true; })
    {
        put([this, bench = bench_, question = std::move(question)] { return std::any(question(opened(bench))); },
            [take = std::move(take)](const std::any& answer) { take(std::any_cast<Answer>(answer)); },
            std::move(still));
    }
    /// unit_register::deliver() in the other thread, `take` here with its lines.
    void deliver(const std::filesystem::path& saved, const records::Unlock& unlock,
                 std::function<void(const std::vector<std::string>& lines)> take);
    [[nodiscard]] bool busy() const noexcept { return waiting_ > 0; }

Q_SIGNALS:
    void trouble(const QString& sentence);
    void busyChanged(bool busy);

private:
    void put(std::function<std::any()> question, std::function<void(const std::any&)> take,
             std::function<bool()> still);
    /// In the other thread.
    const UnitRegister& opened(const unit_register::Bench& bench) const;
    void answered(const std::function<void()>& take);

    struct Asked;
    std::unique_ptr<Asked> asked_;
    std::filesystem::path file_;
    unit_register::Bench bench_;
    int waiting_ = 0;
};

} // namespace zeroline::window
