#include <cstring>
#include <sys/wait.h>

#include <ohmwright/plugin/worker/process_end.hpp>

namespace ohmwright {

std::string process_end_text(int status) {
  if (!WIFSIGNALED(status)) return "it ended its process with code " + std::to_string(WEXITSTATUS(status));
  const int signal = WTERMSIG(status);
  const char* meaning = ::sigdescr_np(signal);
  return "it ended its process by signal " + std::to_string(signal) +
         (meaning == nullptr ? std::string() : " (" + std::string(meaning) + ")");
}

}  // namespace ohmwright
