#pragma once

#include <optional>
#include <stdexcept>
#include <string>

#include <ohmwright/report/run_program.hpp>

namespace ohmwright::testing_support {

/// What ngspice prints as "name = number" for a netlist; nothing where it is not installed. Throws std::runtime_error
/// when it printed no such name.
inline std::optional<double> simulated(const std::string& netlist, const std::string& name) {
  const auto output = run_program({"ngspice", "-b"}, netlist);
  if (!output) return std::nullopt;
  const std::size_t at = output->find(name);
  if (at == std::string::npos) throw std::runtime_error("no " + name + " in: " + *output);
  return std::stod(output->substr(output->find('=', at) + 1));
}

}  // namespace ohmwright::testing_support
