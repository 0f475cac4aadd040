#include "gui/window/language.hpp"

#include <QCoreApplication>
#include <QLibraryInfo>
#include <QLocale>
#include <QTranslator>

#include <string_view>

/// A static library's resources are linked only where something asks for them; must stand outside any namespace.
static void take_in_translations() { Q_INIT_RESOURCE(window); }

namespace zeroline::window {

namespace {

/// The tools of Qt 6.4 leave the namespaces of a class out of its context; at run time they stand in front.
class Translator : public QTranslator {
public:
    using QTranslator::QTranslator;
    [[nodiscard]] QString translate(const char* context, const char* source, const char* comment,
                                    int number) const override
    {
        const std::string_view whole(context);
        const auto colon = whole.rfind(':');
        const char* bare = colon == std::string_view::npos ? context : context + colon + 1;
        return QTranslator::translate(bare, source, comment, number);
    }
};

void install(QCoreApplication& application, const QLocale& locale, const QString& name, const QString& folder)
{
    auto* translator = new Translator(&application);
    if (translator->load(locale, name, QStringLiteral("_"), folder)) {
        QCoreApplication::installTranslator(translator);
    } else {
        delete translator;
    }
}

} // namespace

void install_language(QCoreApplication& application, const QString& language)
{
    take_in_translations();
    auto locale = QLocale::system();
    if (!language.isEmpty()) {
        const QLocale wanted(QString(language).replace(u'-', u'_'));
        locale = wanted.language() == locale.language() && !language.contains(u'-') ? locale : wanted;
    }
    QLocale::setDefault(locale);
    // Qt's own words first: ours win where both have one.
    install(application, locale, QStringLiteral("qtbase"), QLibraryInfo::path(QLibraryInfo::TranslationsPath));
    install(application, locale, QStringLiteral("zeroline"), QStringLiteral(":/translations"));
}

} // namespace zeroline::window
