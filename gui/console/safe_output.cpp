#include "gui/console/safe_output.hpp"

#include "acquisition/trace/visible_text.hpp"

namespace zeroline::console {

namespace {

bool put(std::streambuf& out, std::string_view text)
{
    const auto count = static_cast<std::streamsize>(text.size());
    return out.sputn(text.data(), count) == count;
}

} // namespace

SafeOutput::~SafeOutput()
{
    put(*behind_, trace::visible(unfinished_));
    stream_.rdbuf(behind_);
}

SafeOutput::int_type SafeOutput::overflow(int_type c)
{
    if (traits_type::eq_int_type(c, traits_type::eof())) {
        return traits_type::not_eof(c);
    }
    const char letter = traits_type::to_char_type(c);
    return xsputn(&letter, 1) == 1 ? c : traits_type::eof();
}

std::streamsize SafeOutput::xsputn(const char* text, std::streamsize count)
{
    unfinished_.append(text, static_cast<std::size_t>(count));
    const auto rest = unfinished_.substr(unfinished_.size() - trace::unfinished_letter(unfinished_));
    unfinished_.resize(unfinished_.size() - rest.size());
    const bool written = put(*behind_, trace::visible(unfinished_));
    unfinished_ = rest;
    return written ? count : 0;
}

} // namespace zeroline::console
