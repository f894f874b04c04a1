#pragma once

#include <chrono>
#include <cstddef>
#include <filesystem>

namespace ohmwright {

/// How plugins from outside the installation are run: in a process of their own, within these limits.
struct WorkerSettings {
  std::filesystem::path program;                     ///< ohmwright-plugin-worker
  std::chrono::milliseconds longest_answer{10'000};  ///< after that the worker is ended and the result is lost
  std::size_t memory_bytes = std::size_t{1} << 30U;  ///< address space of the worker
  std::size_t longest_line = std::size_t{8} << 20U;  ///< bytes of one answer
};

}  // namespace ohmwright
