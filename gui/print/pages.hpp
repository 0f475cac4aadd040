#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace zeroline::records {
class KeyList;
}

namespace zeroline::print {

enum class Paper { a4, letter };

/// Who stands for a record, as the seal names them. A text that is empty was not given.
struct Signature {
    std::string name, role, meaning;
    std::string time; ///< RFC 3339 with offset
    std::string key;  ///< fingerprint of the key that sealed it
};

struct PageOptions {
    Paper paper = Paper::a4;
    std::string language =
        "en"; ///< "en" or "de" (a tag such as "de-AT" too): words of the home copy, decimal mark of all
    /// Signatures for a record that is about to be sealed. A sealed one names its own, which stand in place of these.
    std::vector<Signature> signatures = {};
    /// Keys that are known here; a label asks for them. None: no key is.
    const records::KeyList* known = nullptr;
};

// What holds for all of them:
// - They throw trace::InputError where a file of the record is missing or wrong, where it was sealed and is not intact,
//   where `out` cannot be written, where
//   the font is not installed (DejaVu Sans). Nothing half-written stays; a file that stands at `out` is replaced.
// - The clock is never read: dates on paper and in the PDF come from the record. The same folder gives the same bytes.
// - They may be called from any thread (one at a time inside), with or without a Qt application: where there is none,
//   one without a display is made for the time of the call.

/// The printed record of a record folder or FOLDER.part; what was never sealed has DRAFT across every page. Needs
/// record.json, order.json and trace.csv; shows what stands in record.json and recomputes nothing. trace.csv and
/// record.json are attached inside the PDF.
void write_record_page(const std::filesystem::path& folder, const std::filesystem::path& out,
                       const PageOptions& options = {});

/// The copy for the person at home: one page in plain words.
void write_home_page(const std::filesystem::path& folder, const std::filesystem::path& out,
                     const PageOptions& options = {});

/// Its five lines to copy by hand, of a saved record.
[[nodiscard]] std::string home_lines(const std::filesystem::path& folder, const PageOptions& options = {});

/// The label for the unit, 50 mm x 25 mm. Refused (trace::InputError) with the reason where the record allows none:
/// see why_no_label().
void write_label(const std::filesystem::path& folder, const std::filesystem::path& out,
                 const PageOptions& options = {});

/// The tag for a unit that is kept out of use, 105 mm x 74 mm: what not to do, the unit, why, its loaner, whom to call.
/// Refused (trace::InputError) where the record does not say that it is kept out.
void write_tag(const std::filesystem::path& folder, const std::filesystem::path& out, const PageOptions& options = {});

/// Why this record allows no label; empty: it does. A label needs a run that was captured here, both verdicts at least
/// a conditional pass, the unit confirmed as given back, a record that is sealed by keys that are known, rechecks as a
/// whole and has no dates that cannot be, and no other record beside or inside this one that stands in its place
/// (records::why_not_standing()).
[[nodiscard]] std::string why_no_label(const std::filesystem::path& folder, const records::KeyList* known);

/// A page of plain text and tables, for evidence that is no record of a unit.
struct TextSection {
    std::string heading;
    std::vector<std::string> paragraphs;
    std::vector<std::string> columns; ///< head of the table; empty: no table
    std::vector<std::vector<std::string>> rows;
};
struct TextPage {
    std::string title, subtitle;
    std::string date; ///< RFC 3339, also the date of the PDF; empty: none
    std::vector<TextSection> sections;
    std::string footer; ///< on every page
};
void write_text_page(const TextPage& page, const std::filesystem::path& out, const PageOptions& options = {});

} // namespace zeroline::print
