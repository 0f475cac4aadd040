#pragma once

#include "acquisition/serial/languages/asking.hpp"
#include "acquisition/serial/languages/decoder.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace zeroline::serial {

/// An instrument that holds its reading in one or two Modbus registers (application protocol V1.1b3, functions 3 and 4,
/// RTU framing with CRC-16).
///
/// An answer is found by its address, function and length, wherever it begins in what arrives; every byte that is no
/// part of one is discarded. A float register that holds no number or infinity is a reading without value. An exception
/// is told in words. Readings carry the mid-time of request and answer.
class ModbusRtu final : public Decoder {
public:
    explicit ModbusRtu(const trace::Instrument& instrument);

    void feed(std::string_view bytes, double arrival_s, std::vector<Reading>& out) override;
    void restart() override;
    [[nodiscard]] std::size_t unfinished_bytes() const noexcept override { return buffer_.size(); }
    std::string to_send(double now_s) override;
    [[nodiscard]] double next_s() const override { return asking_.next_s(); }
    [[nodiscard]] std::uint64_t unanswered() const override { return asking_.unanswered(); }

private:
    [[nodiscard]] std::size_t frame_length() const; ///< of the frame that may begin the buffer; 0: none begins there
    void take_frame(std::string_view frame, double arrival_s, std::vector<Reading>& out);
    [[nodiscard]] Reading reading_of(std::string_view data) const;
    void drop(std::size_t bytes, std::string trouble);

    trace::Language language_;
    std::string request_;
    Asking asking_;
    std::string buffer_;
};

/// The eight bytes that ask for `registers` registers from `first` on, CRC included.
[[nodiscard]] std::string modbus_request(int address, int function, int first, int registers);

/// The name of an exception code in the application protocol, or "unknown exception".
[[nodiscard]] std::string_view modbus_exception(int code) noexcept;

} // namespace zeroline::serial
