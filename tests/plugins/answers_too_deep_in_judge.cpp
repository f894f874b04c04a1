#include <string>
#include <unistd.h>

#include "support/misbehaving_plugin.hpp"

// Writes an answer of its own into the line to the program, nested deeper than the stack of whoever reads it.
OHMWRIGHT_MISBEHAVING("answers-too-deep-in-judge", {
  (void)findings;
  constexpr int line_to_the_program = 4;
  constexpr std::size_t levels = 300'000;
  const std::string line = R"({"findings":)" + std::string(levels, '[') + std::string(levels, ']') + "}\n";
  for (std::size_t sent = 0; sent < line.size();) {
    const ::ssize_t count = ::write(line_to_the_program, line.data() + sent, line.size() - sent);
    if (count <= 0) ::_exit(1);
    sent += static_cast<std::size_t>(count);
  }
})
