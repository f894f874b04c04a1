#pragma once

#include <cstddef>

namespace ohmwright {

// The numbers of the files that a worker inherits.
inline constexpr int worker_library_descriptor = 3;  ///< sealed copy of the plugin
inline constexpr int worker_channel_descriptor = 4;  ///< line to the program

/// Lives as a worker: takes rights away from itself, loads the plugin, answers until the line is closed. Gives the exit
/// code.
int live_as_worker(std::size_t memory_bytes);

}  // namespace ohmwright
