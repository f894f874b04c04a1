#pragma once

#include <string>
#include <vector>

namespace ohmwright::testing {

/// What a run of the real program gave.
struct Ran {
  int exit_code = -1;
  std::string out;
  std::string err;
};

/// Runs the built program with these words and that input, in a clean environment plus `environment` ("NAME=value").
Ran run_program(const std::vector<std::string>& words, const std::vector<std::string>& environment = {},
                const std::string& input = {});

}  // namespace ohmwright::testing
