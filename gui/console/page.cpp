#include "gui/console/page.hpp"

#ifdef ZEROLINE_WITH_PRINT
#include "gui/print/pages.hpp"
#endif

#include <sstream>

namespace zeroline::console {

#ifdef ZEROLINE_WITH_PRINT

namespace fs = std::filesystem;

namespace {

std::vector<std::string> lines_of(const std::string& text)
{
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) {
        if (!line.empty()) {
            lines.push_back(line);
        }
    }
    return lines;
}

std::string expected_text(const PublishedCheck& check)
{
    return check.expected + (check.within.empty() ? "" : " \xC2\xB1 " + check.within);
}

} // namespace

records::PageMaker page_maker()
{
    return
        [](const fs::path& folder, const fs::path& pdf, const records::Signature& signature, const std::string& key) {
            print::PageOptions options;
            options.signatures = {{signature.signer, signature.role, signature.meaning, signature.time, key}};
            print::write_record_page(folder, pdf, options);
        };
}

ChecksPrinter checks_printer()
{
    return [](const std::vector<PublishedCheck>& checks, const std::string& installation, const std::string& when,
              const fs::path& pdf) {
        print::TextPage page;
        page.title = "Validation of this installation against published values";
        page.date = when;
        page.sections.push_back({"Installation", lines_of(installation), {}, {}});
        for (const auto& check : checks) {
            if (page.sections.back().heading != check.group) {
                page.sections.push_back({check.group, {}, {"value", "source", "expected", "got", ""}, {}});
            }
            page.sections.back().rows.push_back(
                {check.what, check.source, expected_text(check), check.got, check.agrees ? "ok" : "FAILED"});
        }
        page.footer = "Whether these checks are enough for a use is for whoever uses the program to say.";
        print::write_text_page(page, pdf);
    };
}

#else

records::PageMaker page_maker() { return {}; }

ChecksPrinter checks_printer() { return {}; }

#endif

} // namespace zeroline::console
