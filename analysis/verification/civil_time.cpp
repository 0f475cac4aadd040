#include "analysis/verification/civil_time.hpp"

#include <charconv>
#include <chrono>
#include <string_view>

namespace zeroline::verification {

namespace {

/// Reads fixed-width fields off the front of a text; once something did not fit it stays failed.
class Fields {
public:
    explicit Fields(std::string_view text) : rest_(text) {}

    int digits(std::size_t width, int low, int high)
    {
        int value = 0;
        const auto piece = rest_.substr(0, width);
        const auto end = piece.data() + piece.size();
        const bool plain = piece.size() == width && piece.find_first_not_of("0123456789") == std::string_view::npos;
        ok_ = ok_ && plain && std::from_chars(piece.data(), end, value).ptr == end && value >= low && value <= high;
        rest_.remove_prefix(piece.size());
        return value;
    }

    bool take(std::string_view any_of)
    {
        if (rest_.empty() || any_of.find(rest_.front()) == std::string_view::npos) {
            return false;
        }
        rest_.remove_prefix(1);
        return true;
    }

    void need(std::string_view any_of) { ok_ = take(any_of) && ok_; }

    void fraction()
    {
        if (take(".")) {
            need("0123456789");
            while (take("0123456789")) {
            }
        }
    }

    [[nodiscard]] bool done() const { return ok_ && rest_.empty(); }

private:
    std::string_view rest_;
    bool ok_ = true;
};

} // namespace

bool is_instant(const std::string& text)
{
    Fields fields(text);
    const int year = fields.digits(4, 1, 9999);
    fields.need("-");
    const int month = fields.digits(2, 1, 12);
    fields.need("-");
    const int day = fields.digits(2, 1, 31);
    fields.need("Tt");
    fields.digits(2, 0, 23);
    fields.need(":");
    fields.digits(2, 0, 59);
    fields.need(":");
    fields.digits(2, 0, 60);
    fields.fraction();
    if (!fields.take("Zz")) {
        fields.need("+-");
        fields.digits(2, 0, 23);
        fields.need(":");
        fields.digits(2, 0, 59);
    }
    const std::chrono::year_month_day date{std::chrono::year{year}, std::chrono::month{static_cast<unsigned>(month)},
                                           std::chrono::day{static_cast<unsigned>(day)}};
    return fields.done() && date.ok();
}

std::int64_t epoch_s_of(const std::string& instant)
{
    const auto number = [&](std::size_t at, std::size_t width) {
        int value = 0;
        std::from_chars(instant.data() + at, instant.data() + at + width, value);
        return value;
    };
    const std::chrono::year_month_day date{std::chrono::year{number(0, 4)},
                                           std::chrono::month{static_cast<unsigned>(number(5, 2))},
                                           std::chrono::day{static_cast<unsigned>(number(8, 2))}};
    const std::chrono::seconds time = std::chrono::sys_days(date).time_since_epoch() +
                                      std::chrono::hours(number(11, 2)) + std::chrono::minutes(number(14, 2)) +
                                      std::chrono::seconds(number(17, 2));
    const auto sign = instant.find_last_of("+-Zz");
    const bool utc = instant[sign] == 'Z' || instant[sign] == 'z';
    const std::chrono::seconds offset =
        utc ? std::chrono::seconds(0)
            : std::chrono::hours(number(sign + 1, 2)) + std::chrono::minutes(number(sign + 4, 2));
    return (instant[sign] == '-' ? time + offset : time - offset).count();
}

std::string day_of(const std::string& instant) { return instant.substr(0, 10); }

} // namespace zeroline::verification
