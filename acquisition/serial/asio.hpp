#pragma once

// Boost 1.74's asio uses std::exchange in its coroutine headers without including <utility>; this is the one place that
// knows, and the only header of ours that includes Asio.
#include <utility>

// Asio's fences are not understood by the thread sanitizer; its queue's mutex orders handlers as well.
#if defined(__SANITIZE_THREAD__)
#define BOOST_ASIO_DISABLE_FENCED_BLOCK 1
#endif

#include <boost/asio/buffer.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/serial_port.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/write.hpp>
