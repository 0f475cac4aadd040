#include "tests/gui/window/driven_window.hpp"

#include "gui/session/shown_number.hpp"
#include "gui/window/language.hpp"
#include "gui/window/wiring_view.hpp"

#include <QGraphicsPathItem>
#include <QGraphicsSimpleTextItem>
#include <QLocale>
#include <QProcess>
#include <QTranslator>
#include <QXmlStreamReader>

namespace zeroline::window {
namespace {

using testing::HasSubstr;

const QString kGerman = QStringLiteral(ZEROLINE_SOURCE_DIR "/gui/window/translations/zeroline_de.ts");

struct Message {
    QString source, translation;
    bool unfinished = false;
};

std::vector<Message> messages_in(const QString& file)
{
    QFile in(file);
    EXPECT_TRUE(in.open(QIODevice::ReadOnly)) << file.toStdString();
    QXmlStreamReader xml(&in);
    std::vector<Message> all;
    while (!xml.atEnd()) {
        xml.readNext();
        if (!xml.isStartElement())
            continue;
        if (xml.name() == QLatin1String("message"))
            all.emplace_back();
        else if (xml.name() == QLatin1String("source"))
            all.back().source = xml.readElementText();
        else if (xml.name() == QLatin1String("translation")) {
            all.back().unfinished = !xml.attributes().value(QLatin1String("type")).isEmpty();
            all.back().translation = xml.readElementText();
        }
    }
    EXPECT_FALSE(xml.hasError()) << xml.errorString().toStdString();
    return all;
}

TEST(Translation, OfGermanIsWholeAndKeepsEveryPlaceholder)
{
    const auto all = messages_in(kGerman);
    EXPECT_GT(all.size(), 500U);
    for (const auto& message : all) {
        EXPECT_FALSE(message.unfinished || message.translation.isEmpty()) << message.source.toStdString();
        for (int i = 1; i <= 9; ++i) {
            const auto place = QStringLiteral("%%1").arg(i);
            EXPECT_EQ(message.source.contains(place), message.translation.contains(place))
                << message.source.toStdString();
        }
    }
}

TEST(Translation, KnowsEveryWordThatTheSourcesSayNow)
{
    const QTemporaryDir folder;
    const auto copy = folder.filePath(QStringLiteral("zeroline_de.ts"));
    ASSERT_TRUE(QFile::copy(kGerman, copy));
    QProcess lupdate;
    const auto root = QStringLiteral(ZEROLINE_SOURCE_DIR);
    lupdate.start(QStringLiteral(ZEROLINE_LUPDATE),
                  {"-silent", "-no-obsolete", "-locations", "none", "-tr-function-alias",
                   "QT_TRANSLATE_NOOP+=ZEROLINE_SCREEN_WORD", root + "/gui/window", root + "/gui/session",
                   root + "/gui/charts", root + "/analysis/verification/measurands.cpp",
                   root + "/fixtures/virtual_bench", "-ts", copy});
    ASSERT_TRUE(lupdate.waitForFinished(60'000));
    ASSERT_EQ(lupdate.exitCode(), 0) << lupdate.readAllStandardError().toStdString();
    for (const auto& message : messages_in(copy))
        EXPECT_FALSE(message.unfinished) << "not translated yet (build the target 'translations'): "
                                         << message.source.toStdString();
}

class GermanWindow : public DrivenWindow {
protected:
    void SetUp() override
    {
        install_language(application(), QStringLiteral("de"));
        DrivenWindow::SetUp();
    }
    void TearDown() override
    {
        window_.reset();
        for (auto* translator : application().findChildren<QTranslator*>())
            QCoreApplication::removeTranslator(translator);
        QLocale::setDefault(QLocale::c());
    }
};

TEST_F(GermanWindow, SpeaksGermanWithADecimalComma)
{
    EXPECT_THAT(find<QPushButton>("begin")->text().toStdString(), HasSubstr("Prüfung beginnen"));
    choose_the_demonstration();
    EXPECT_THAT(text("orderSummary"), HasSubstr("1,5"));
    EXPECT_THAT(text("cautions"), HasSubstr("Der Schlauch ist von der Person ab"));
    window_->bench().start_page().choose_port(session::PortsModel::kVirtualBench);
    press("begin");
    EXPECT_THAT(text("sentence"), HasSubstr("Den Schlauch"));
    EXPECT_THAT(text("waits"), HasSubstr("Wartet"));
    EXPECT_EQ(session::shown(0.25, 2), "0,25");
}

/// "Druckaufnehmer" stood half outside its box.
TEST_F(GermanWindow, WordsInADrawnBoxOfTheWiringStayInsideIt)
{
    WiringView drawing;
    session::RunView view;
    view.line_lost = true; // these names are then bold
    drawing.show_wiring(wiring_of(view));
    int inside = 0;
    for (const auto* item : drawing.scene()->items()) {
        const auto* words = dynamic_cast<const QGraphicsSimpleTextItem*>(item);
        for (const auto* under :
             drawing.scene()->items(words != nullptr ? words->sceneBoundingRect().center() : QPointF(-9, -9))) {
            if (const auto* box = dynamic_cast<const QGraphicsPathItem*>(under); words != nullptr && box != nullptr) {
                ++inside;
                EXPECT_TRUE(box->sceneBoundingRect().contains(words->sceneBoundingRect()))
                    << words->text().toStdString();
            }
        }
    }
    EXPECT_GE(inside, 3) << "unit, transducer, computer";
}

} // namespace
} // namespace zeroline::window
