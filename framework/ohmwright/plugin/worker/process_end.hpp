#pragma once

#include <string>

namespace ohmwright {

/// How a child process ended that did not come to its own end, from what waitpid gave: "it ended its process by signal
/// 11 (Segmentation fault)", "it ended its process with code 3".
std::string process_end_text(int status);

}  // namespace ohmwright
