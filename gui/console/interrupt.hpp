#pragma once

namespace zeroline::console {

/// Lets Ctrl-C, a closed terminal and a polite kill end a command cleanly instead of at once; a full disk and a closed
/// pipe come back as errors of the call that met them. Called once, before anything runs.
void listen_to_signals();

/// One of the signals has come.
[[nodiscard]] bool interrupted() noexcept;

} // namespace zeroline::console
