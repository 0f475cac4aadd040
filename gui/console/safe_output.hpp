#pragma once

#include <iostream>
#include <streambuf>
#include <string>

namespace zeroline::console {

/// Stands in front of a stream: what is written passes trace::visible(), so that no text from a file can move the
/// cursor, wipe a line or turn letters round, whoever prints it. While it lives the stream's buffer is this one.
class SafeOutput : public std::streambuf {
public:
    explicit SafeOutput(std::ostream& stream) : stream_(stream), behind_(stream.rdbuf(this)) {}
    ~SafeOutput() override;
    SafeOutput(const SafeOutput&) = delete;
    SafeOutput& operator=(const SafeOutput&) = delete;

protected:
    int_type overflow(int_type c) override;
    std::streamsize xsputn(const char* text, std::streamsize count) override;
    int sync() override { return behind_->pubsync(); }

private:
    std::ostream& stream_;
    std::streambuf* behind_;
    std::string unfinished_; ///< the beginning of a letter
};

} // namespace zeroline::console
