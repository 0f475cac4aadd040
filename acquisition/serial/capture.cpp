#include "acquisition/serial/capture.hpp"

#include "acquisition/serial/capture_chain.hpp"

#include <utility>

namespace zeroline::serial {

Capture::Capture(CaptureSettings settings) : chain_(std::make_unique<Chain>(std::move(settings))) {}

Capture::~Capture() { stop(); }

void Capture::start() { chain_->start(); }

void Capture::stop() { chain_->stop(); }

std::size_t Capture::pull(std::span<Reading> out) { return chain_->pull(out); }

LineState Capture::state() const { return chain_->state(); }

std::string Capture::message() const { return chain_->message(); }

Counters Capture::counters() const { return chain_->counters(); }

std::string Capture::identity() const { return chain_->identity(); }

bool Capture::is_pseudo_terminal() const { return chain_->is_pseudo_terminal(); }

} // namespace zeroline::serial
