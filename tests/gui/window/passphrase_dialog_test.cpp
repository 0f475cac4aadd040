#include "gui/window/passphrase_dialog.hpp"

#include "tests/gui/window/driven_window.hpp"

#include "gui/records/bench_key.hpp"

#include <QInputDialog>
#include <QTimer>

namespace zeroline::window {
namespace {

using testing::HasSubstr;

class PassphraseDialog : public DrivenWindow {
protected:
    /// Answers the dialog that comes up next as a person does; none: cancels it.
    void answer_next(const std::optional<QString>& typed)
    {
        seen_ = false;
        timer_.callOnTimeout(&timer_, [this, typed] { answer(typed); });
        timer_.start(std::chrono::milliseconds(20));
    }

    void answer(const std::optional<QString>& typed)
    {
        for (auto* widget : QApplication::topLevelWidgets()) {
            auto* dialog = qobject_cast<QInputDialog*>(widget);
            auto* field = dialog != nullptr && dialog->isVisible() ? dialog->findChild<QLineEdit*>() : nullptr;
            if (field == nullptr)
                continue;
            timer_.stop();
            timer_.disconnect();
            seen_ = true;
            asked_ = dialog->labelText().toStdString();
            field->insert(typed.value_or(QString())); // QTest types no letters beyond ASCII
            shown_ = field->displayText();
            typed ? dialog->accept() : dialog->reject();
        }
    }

    [[nodiscard]] bool any_record_begun() const
    {
        std::error_code none;
        return std::filesystem::exists(records(), none) && !std::filesystem::is_empty(records(), none);
    }

    std::filesystem::path key_file_ = std::filesystem::path(folder_.path().toStdString()) / "zeroline" / "bench.key";
    QTimer timer_;
    bool seen_ = false;
    std::string asked_;
    QString shown_;
};

TEST_F(PassphraseDialog, NamesTheKeyAndShowsNothingOfWhatIsTyped)
{
    const auto ask = ask_above(window_.get());
    answer_next(QStringLiteral("vier W\u00F6rter"));
    EXPECT_EQ(ask("bench.key"), "vier W\xC3\xB6rter");
    EXPECT_TRUE(seen_);
    EXPECT_THAT(asked_, HasSubstr("bench.key"));
    EXPECT_EQ(shown_.size(), 11) << "how much was typed";
    EXPECT_FALSE(shown_.contains(u'W'));
    answer_next(std::nullopt);
    EXPECT_EQ(ask("bench.key"), std::nullopt);
}

TEST_F(PassphraseDialog, ComesBeforeARunBeginsAndWithoutTheRightWordNoneDoes)
{
    const auto key = records::SigningKey::load_or_make(key_file_);
    records::set_passphrase(key_file_, key, "secret");
    window_->bench().start_page().choose_order(QString::fromStdString(short_order()));
    window_->bench().start_page().choose_port(session::PortsModel::kVirtualBench);
    answer_next(std::nullopt);
    press("begin");
    EXPECT_TRUE(seen_);
    EXPECT_THAT(text("trouble"), HasSubstr("none was typed"));
    answer_next(QStringLiteral("another"));
    press("begin");
    EXPECT_THAT(text("trouble"), HasSubstr("does not open it"));
    EXPECT_TRUE(shows("startPage"));
    EXPECT_FALSE(any_record_begun());
    answer_next(QStringLiteral("secret"));
    press("begin");
    EXPECT_TRUE(shows("runPage")) << text("trouble");
}

} // namespace
} // namespace zeroline::window
