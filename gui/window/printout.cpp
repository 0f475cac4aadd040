#include "gui/window/printout.hpp"

#include "gui/print/sheets.hpp"
#include "gui/records/bench_file.hpp"
#include "gui/records/key_list.hpp"

#include <QLocale>
#include <QPageSize>
#include <QPrinter>

namespace zeroline::window {

namespace {

/// What both ways need to know; `known` outlives it.
zeroline::print::PageOptions options_with(const records::KeyList& known)
{
    zeroline::print::PageOptions options;
    options.language = QLocale().name().left(2).toStdString();
    options.known = &known;
    return options;
}

records::KeyList keys_of(const std::optional<std::filesystem::path>& bench_file)
{
    return records::own_keys(records::key_file(bench_file ? bench_file : records::usual_bench_file()));
}

} // namespace

void Printout::save_pdf(const QString& file) const
{
    const auto known = keys_of(bench_file);
    const auto options = options_with(known);
    const std::filesystem::path out = file.toStdString();
    if (what == QLatin1String("label")) {
        zeroline::print::write_label(folder, out, options);
    } else if (what == QLatin1String("tag")) {
        zeroline::print::write_tag(folder, out, options);
    } else if (what == QLatin1String("home")) {
        zeroline::print::write_home_page(folder, out, options);
    } else {
        zeroline::print::write_record_page(folder, out, options);
    }
}

void Printout::print(QPrinter& printer) const
{
    const auto known = keys_of(bench_file);
    const auto options = options_with(known);
    const auto sheet = what == QLatin1String("label")  ? zeroline::print::label_sheet(folder, options)
                       : what == QLatin1String("tag")  ? zeroline::print::tag_sheet(folder, options)
                       : what == QLatin1String("home") ? zeroline::print::home_sheet(folder, options)
                                                       : zeroline::print::record_sheet(folder, options);
    printer.setFullPage(true);
    printer.setPageSize(QPageSize(sheet.size_mm, QPageSize::Millimeter));
    zeroline::print::draw(sheet, printer);
}

} // namespace zeroline::window
