#include "analysis/record/difference.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::record {

namespace {

using nlohmann::ordered_json;

constexpr double kRelative = 1e-9;
constexpr double kAbsolute = 1e-12;
constexpr const char* kMissing = "(missing)";

std::string escaped(const std::string& key)
{
    std::string out;
    for (const char c : key) {
        out += c == '~' ? "~0" : c == '/' ? "~1" : std::string(1, c);
    }
    return out;
}

std::string text_of(const ordered_json& tree)
{
    return tree.dump(-1, ' ', false, ordered_json::error_handler_t::replace);
}

class Comparison {
public:
    explicit Comparison(Alike alike) : alike_(alike) {}

    void compare(const ordered_json& saved, const ordered_json& now, const std::string& pointer)
    {
        if (alike_ == Alike::to_rounding && pointer == "/software") {
            return;
        }
        if (saved.is_object() && now.is_object()) {
            compare_objects(saved, now, pointer);
        } else if (saved.is_array() && now.is_array()) {
            compare_arrays(saved, now, pointer);
        } else if (!same(saved, now)) {
            found_.push_back({pointer, text_of(saved), text_of(now)});
        }
    }

    std::vector<Difference> found() { return std::move(found_); }

private:
    void compare_objects(const ordered_json& saved, const ordered_json& now, const std::string& pointer)
    {
        for (const auto& [key, value] : saved.items()) {
            const auto at = pointer + "/" + escaped(key);
            const auto it = now.find(key);
            if (it == now.end()) {
                found_.push_back({at, text_of(value), kMissing});
            } else {
                compare(value, *it, at);
            }
        }
        for (const auto& [key, value] : now.items()) {
            if (!saved.contains(key)) {
                found_.push_back({pointer + "/" + escaped(key), kMissing, text_of(value)});
            }
        }
    }

    void compare_arrays(const ordered_json& saved, const ordered_json& now, const std::string& pointer)
    {
        for (std::size_t i = 0; i < std::max(saved.size(), now.size()); ++i) {
            const auto at = pointer + "/" + std::to_string(i);
            if (i >= now.size()) {
                found_.push_back({at, text_of(saved[i]), kMissing});
            } else if (i >= saved.size()) {
                found_.push_back({at, kMissing, text_of(now[i])});
            } else {
                compare(saved[i], now[i], at);
            }
        }
    }

    [[nodiscard]] bool same(const ordered_json& saved, const ordered_json& now) const
    {
        if (!saved.is_number() || !now.is_number()) {
            return saved == now;
        }
        const double a = saved.get<double>();
        const double b = now.get<double>();
        if (alike_ == Alike::exactly) {
            return a == b;
        }
        return std::abs(a - b) <= std::max(kAbsolute, kRelative * std::max(std::abs(a), std::abs(b)));
    }

    Alike alike_;
    std::vector<Difference> found_;
};

} // namespace

std::vector<Difference> differences(const ordered_json& saved, const ordered_json& now, Alike alike)
{
    Comparison comparison(alike);
    comparison.compare(saved, now, "");
    return comparison.found();
}

} // namespace zeroline::record
