// Stands between a program and the C library (LD_PRELOAD) and lets its clock run faster: a second of the room is
// ZEROLINE_TEST_SPEED seconds to the program, in what it reads and in what it waits for. Nothing of the program is
// changed for it, and nobody can ask the program for it. The date stays that of the room.

#include <cstdint>
#include <cstdlib>
#include <ctime>

#include <dlfcn.h>
#include <poll.h>
#include <pthread.h>
#include <signal.h>
#include <sys/epoll.h>
#include <sys/timerfd.h>

namespace {

constexpr std::int64_t kSecond_ns = 1'000'000'000;
constexpr std::int64_t kMillisecond_ns = 1'000'000;

template <typename Function> Function real(const char* name)
{
    return reinterpret_cast<Function>(::dlsym(RTLD_NEXT, name));
}

std::int64_t ns_of(const timespec& time) { return time.tv_sec * kSecond_ns + time.tv_nsec; }
timespec time_of(std::int64_t ns) { return {ns / kSecond_ns, ns % kSecond_ns}; }

bool is_scaled(clockid_t clock)
{
    return clock == CLOCK_MONOTONIC || clock == CLOCK_MONOTONIC_RAW || clock == CLOCK_MONOTONIC_COARSE ||
           clock == CLOCK_BOOTTIME;
}

std::int64_t speed()
{
    static const std::int64_t value = [] {
        const char* text = std::getenv("ZEROLINE_TEST_SPEED");
        const auto typed = text == nullptr ? 1 : std::atoll(text);
        return typed < 1 ? 1 : typed;
    }();
    return value;
}

/// How long a wait of the program is in the room; never 0 for one that is none.
std::int64_t in_the_room(std::int64_t ns) { return (ns + speed() - 1) / speed(); }

int milliseconds_in_the_room(int wait)
{
    return wait <= 0 ? wait : static_cast<int>((wait + speed() - 1) / speed());
}

timespec in_the_room(const timespec& time) { return time_of(in_the_room(ns_of(time))); }

} // namespace

extern "C" {

// The program's time is the room's times the speed: the same to every program, so nothing has to be shared.
int clock_gettime(clockid_t clock, timespec* time) noexcept
{
    static const auto usual = real<int (*)(clockid_t, timespec*)>("clock_gettime");
    const int done = usual(clock, time);
    if (done == 0 && is_scaled(clock)) {
        *time = time_of(ns_of(*time) * speed());
    }
    return done;
}

int nanosleep(const timespec* wait, timespec* left)
{
    static const auto usual = real<int (*)(const timespec*, timespec*)>("nanosleep");
    const auto shorter = in_the_room(*wait);
    const int done = usual(&shorter, left);
    if (done != 0 && left != nullptr) {
        *left = time_of(ns_of(*left) * speed());
    }
    return done;
}

int clock_nanosleep(clockid_t clock, int flags, const timespec* wait, timespec* left)
{
    static const auto usual = real<int (*)(clockid_t, int, const timespec*, timespec*)>("clock_nanosleep");
    if (!is_scaled(clock) && (flags & TIMER_ABSTIME) != 0) {
        return usual(clock, flags, wait, left);
    }
    const auto shorter = in_the_room(*wait);
    const int done = usual(clock, flags, &shorter, left);
    if (done != 0 && left != nullptr && (flags & TIMER_ABSTIME) == 0) {
        *left = time_of(ns_of(*left) * speed());
    }
    return done;
}

int poll(pollfd* watched, nfds_t count, int wait)
{
    static const auto usual = real<int (*)(pollfd*, nfds_t, int)>("poll");
    return usual(watched, count, milliseconds_in_the_room(wait));
}

int ppoll(pollfd* watched, nfds_t count, const timespec* wait, const sigset_t* mask)
{
    static const auto usual = real<int (*)(pollfd*, nfds_t, const timespec*, const sigset_t*)>("ppoll");
    if (wait == nullptr) {
        return usual(watched, count, wait, mask);
    }
    const auto shorter = in_the_room(*wait);
    return usual(watched, count, &shorter, mask);
}

int epoll_wait(int epoll, epoll_event* events, int most, int wait)
{
    static const auto usual = real<int (*)(int, epoll_event*, int, int)>("epoll_wait");
    return usual(epoll, events, most, milliseconds_in_the_room(wait));
}

int timerfd_settime(int timer, int flags, const itimerspec* value, itimerspec* before) noexcept
{
    static const auto usual = real<int (*)(int, int, const itimerspec*, itimerspec*)>("timerfd_settime");
    const itimerspec sooner{in_the_room(value->it_interval), in_the_room(value->it_value)};
    return usual(timer, flags, &sooner, before);
}

int pthread_cond_clockwait(pthread_cond_t* condition, pthread_mutex_t* mutex, clockid_t clock, const timespec* until)
{
    static const auto usual =
        real<int (*)(pthread_cond_t*, pthread_mutex_t*, clockid_t, const timespec*)>("pthread_cond_clockwait");
    const auto sooner = is_scaled(clock) ? in_the_room(*until) : *until;
    return usual(condition, mutex, clock, &sooner);
}

} // extern "C"
