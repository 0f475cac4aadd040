#include "analysis/signal/pipeline.hpp"

#include <algorithm>

namespace zeroline::signal {

void SampleBuffer::append(Samples block)
{
    time_s_.insert(time_s_.end(), block.time_s.begin(), block.time_s.end());
    pressure_.insert(pressure_.end(), block.pressure_cmH2O.begin(), block.pressure_cmH2O.end());
}

void SampleBuffer::drop_before(std::size_t first)
{
    if (first <= base_) {
        return;
    }
    head_ += first - base_;
    base_ = first;
    while (!removed_.empty() && removed_.front() <= base_) {
        removed_.pop_front();
        ++removed_before_;
    }
    // Moving what is kept to the front only when as much is forgotten keeps the cost a sample constant.
    if (head_ * 2 >= time_s_.size()) {
        const auto forgotten = static_cast<std::ptrdiff_t>(head_);
        time_s_.erase(time_s_.begin(), time_s_.begin() + forgotten);
        pressure_.erase(pressure_.begin(), pressure_.begin() + forgotten);
        head_ = 0;
    }
}

void SampleBuffer::remove(std::size_t index)
{
    const auto offset = static_cast<std::ptrdiff_t>(index - base_ + head_);
    time_s_.erase(time_s_.begin() + offset);
    pressure_.erase(pressure_.begin() + offset);
    removed_.push_back(index);
}

std::size_t SampleBuffer::number_given(std::size_t index) const
{
    const auto before = std::upper_bound(removed_.begin(), removed_.end(), index) - removed_.begin();
    return index + removed_before_ + static_cast<std::size_t>(before);
}

Samples SampleBuffer::view(std::size_t first, std::size_t last) const
{
    const std::size_t offset = head_ + (first - base_);
    return {std::span(time_s_).subspan(offset, last - first), std::span(pressure_).subspan(offset, last - first)};
}

} // namespace zeroline::signal
