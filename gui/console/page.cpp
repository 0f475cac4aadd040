#include "gui/console/page.hpp"

#ifdef ZEROLINE_WITH_PRINT
#include "gui/print/pages.hpp"
#endif

#include <algorithm>
#include <sstream>

namespace zeroline::console {

std::string totals_of(const std::vector<PublishedCheck>& checks)
{
    const auto failed = std::count_if(checks.begin(), checks.end(), [](const auto& check) { return !check.agrees; });
    return std::to_string(checks.size()) + " published values, " + std::to_string(failed) + " not met";
}

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

print::TextSection signature_section(const ChecksPage& content)
{
    const auto& signature = content.signature;
    const auto or_line = [](const std::string& text) { return text.empty() ? "____________________" : text; };
    return {"",
            {"It is test equipment, no medical device, and this page is no claim of accreditation."},
            {"validated by", "role", "meaning", "time", "key of this bench"},
            {{or_line(signature.signer), or_line(signature.role), signature.meaning, signature.time, content.key}}};
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
    return [](const ChecksPage& content, const fs::path& pdf) {
        print::TextPage page;
        page.title = "Validation of this installation against published values";
        page.date = content.signature.time;
        page.subtitle = totals_of(content.checks);
        page.sections.push_back(signature_section(content));
        page.sections.push_back({"Program and libraries", lines_of(content.version), {}, {}});
        print::TextSection files{"As loaded while this page was made", {}, {"file", "SHA-256"}, {}};
        for (const auto& [file, sha256] : content.files) {
            files.rows.push_back({file.string(), sha256});
        }
        page.sections.push_back(std::move(files));
        for (const auto& check : content.checks) {
            if (page.sections.back().heading != check.group) {
                page.sections.push_back({check.group, {}, {"value", "source", "expected", "got", "result"}, {}});
            }
            page.sections.back().rows.push_back({check.what, check.source, expected_text(check), check.got,
                                                 check.agrees ? "\xE2\x9C\x93 ok" : "\xE2\x9C\x97 FAILED"});
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
