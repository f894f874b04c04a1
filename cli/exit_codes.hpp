#pragma once

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright::cli {

// What the program's exit says.
inline constexpr int exit_done = 0;  ///< within limits, or done
inline constexpr int exit_out_of_limits = 1;
inline constexpr int exit_refused = 2;  ///< input or usage
inline constexpr int exit_undecided = 3;
inline constexpr int exit_plugin_refused = 4;
inline constexpr int exit_internal = 70;

constexpr int exit_code(Outcome outcome) {
  switch (outcome) {
    case Outcome::within_limits:
      return exit_done;
    case Outcome::out_of_limits:
      return exit_out_of_limits;
    default:
      return exit_undecided;
  }
}

constexpr int exit_code(ErrorCategory category) {
  switch (category) {
    case ErrorCategory::input:
      return exit_refused;
    case ErrorCategory::plugin:
      return exit_plugin_refused;
    default:
      return exit_internal;
  }
}

}  // namespace ohmwright::cli
