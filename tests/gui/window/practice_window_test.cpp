// A practice in the window, through its widgets: the virtual bench plays what nobody tells, the answer comes before the
// result, and nothing is left of it.

#include "tests/gui/window/driven_window.hpp"

#include "gui/session/practice.hpp"

#include <QListView>
#include <QListWidget>

namespace zeroline::window {
namespace {

using std::chrono::seconds;
using testing::HasSubstr;
using testing::Not;

class PracticeInTheWindow : public DrivenWindow {
protected:
    void answer(const std::string& code)
    {
        auto* answers = find<QListWidget>("practiceAnswers");
        for (int row = 0; row < answers->count(); ++row)
            if (answers->item(row)->data(Qt::UserRole).toString().toStdString() == code)
                answers->setCurrentRow(row);
        press("practiceAnswer");
    }
    void keep_picture(const char* name) const
    {
        const auto folder = qEnvironmentVariable("ZEROLINE_PICTURES");
        if (!folder.isEmpty())
            window_->grab().save(folder + u'/' + QLatin1String(name) + QStringLiteral(".png"));
    }
};

TEST_F(PracticeInTheWindow, AsksWhatItWasBeforeItShowsAnythingAndKeepsNothing)
{
    ASSERT_NO_FATAL_FAILURE(begin(QStringLiteral("?")));
    const auto task = session().set_up().practice;
    const auto part = session().part();
    ASSERT_TRUE(task);
    EXPECT_THAT(text("banner"), HasSubstr("PRACTICE"));
    EXPECT_THAT(part.string(), Not(HasSubstr(records()))) << "not among the records";
    say_the_three_words();
    ASSERT_TRUE(wait_for([&] { return session().history().last_s() > 3.0; }, seconds(20)));
    keep_picture("practice-run");
    press_key(Qt::Key_Escape); // given back: the question comes however a run ends
    for (int i = 0; i < 10 && !shows("practicePage"); ++i) {
        press_key(Qt::Key_Space);
        wait_for([&] { return shows("practicePage"); }, seconds(2));
    }
    ASSERT_TRUE(shows("practicePage"));
    EXPECT_FALSE(shows("resultPage"));
    EXPECT_THAT(text("banner"), HasSubstr("PRACTICE"));
    EXPECT_FALSE(find<QPushButton>("practiceAnswer")->isEnabled()) << "nothing is chosen yet";
    keep_picture("practice-question");
    answer(task->code);
    ASSERT_TRUE(shows("resultPage"));
    EXPECT_THAT(text("simulated"), HasSubstr("PRACTICE"));
    EXPECT_THAT(text("toDo"), HasSubstr("Right. It was"));
    EXPECT_THAT(text("toDo"), HasSubstr(task->code));
    EXPECT_FALSE(find<QPushButton>("save")->isVisible()) << "nothing is to be signed";
    EXPECT_FALSE(find<QPushButton>("asLeft")->isVisible());
    keep_picture("practice-told");
    press("next");
    ASSERT_TRUE(shows("startPage"));
    EXPECT_FALSE(std::filesystem::exists(part.parent_path())) << "it went with the bench";
    EXPECT_FALSE(std::filesystem::exists(records()));
}

} // namespace
} // namespace zeroline::window
