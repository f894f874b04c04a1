#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace ohmwright {

// What a worker process gives up before and after it loads a plugin. Each function says what the kernel would not take
// away; an empty list means that everything named here holds.

/// Limits and rights that go before anything of the plugin runs: memory, core files, the size of files; another user
/// than root; of the kernel's calls only those that computing and loading need, so no network, no other program, no
/// other process, no signal to one, sent or asked for by a file, and no look into one, no terminal; of the file systems
/// only the folders of the system's libraries, for reading.
std::vector<std::string> restrict_before_loading(std::size_t memory_bytes);

/// After loading only what computing needs is left, to this thread and to all that were started meanwhile: no file can
/// be opened or looked up any more, not even for reading.
std::vector<std::string> restrict_after_loading();

}  // namespace ohmwright
