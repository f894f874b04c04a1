#pragma once

#include <ohmwright/plugin/trust.hpp>

namespace ohmwright {

/// A copy of the file in memory that nobody can change any more, not even this process (a sealed memfd).
///
/// What is checked in it is therefore what is loaded from it, whatever happens to the file on disk.
/// Throws PluginError when the file is larger than `largest_plugin` or was cut while it was read.
FileDescriptor sealed_copy(const TrustedFile& file);

/// Far above any plugin; keeps a sparse file from filling the memory.
inline constexpr std::uint64_t largest_plugin = 256ULL << 20U;

}  // namespace ohmwright
