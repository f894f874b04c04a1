#include "ngspice.hpp"

#include <cstdio>
#include <numbers>
#include <sstream>
#include <utility>

#include <ohmwright/report/run_program.hpp>

namespace ohmwright::circuit::testing_support {
namespace {

std::string number(double value) {
  char text[32];
  (void)std::snprintf(text, sizeof text, "%.17g", value);
  return text;
}

// The black probe is on ngspice's ground.
std::string node(NodeIndex index, NodePair probes) { return index == probes.minus ? "0" : "n" + std::to_string(index); }

std::string line_of(std::size_t index, const Branch& branch, NodePair probes, bool sources) {
  const std::string between =
      std::to_string(index) + " " + node(branch.from, probes) + " " + node(branch.to, probes) + " ";
  const std::string value = number(branch.model.value_in_si);
  switch (branch.model.type) {
    case BranchType::resistance:
      return "R" + between + value;
    case BranchType::capacitance:
      return "C" + between + value;
    case BranchType::inductance:
      return "L" + between + value;
    case BranchType::closed:
      return "V" + between + "DC 0 AC 0";
    case BranchType::voltage_source:
      if (!sources) break;
      return "V" + between + "DC " + value + " AC " + value + " " +
             number(branch.model.phase_in_radian * 180.0 / std::numbers::pi);
    case BranchType::open:
      break;
  }
  return "";
}

/// "name = 1.5" or "name = 1.5,-2.0e-3".
std::complex<double> value_of(const std::string& line) {
  const std::string text = line.substr(line.find('=') + 1);
  const std::size_t comma = text.find(',');
  return {std::stod(text), comma == std::string::npos ? 0.0 : std::stod(text.substr(comma + 1))};
}

}  // namespace

std::size_t NgspiceBatch::add(const Network& network, std::span<const Change> changes, NodePair probes,
                              std::string lines, bool sources, double frequency_in_hz) {
  std::vector<Branch> branches(network.branches().begin(), network.branches().end());
  for (const Change& change : changes) branches[change.branch].model = change.model;
  std::string printed;
  for (std::size_t b = 0; b < branches.size(); ++b) {
    const std::string line = line_of(b, branches[b], probes, sources);
    if (line.empty()) continue;
    lines += "circbyline " + line + "\n";
    if (line.front() == 'V') printed += " i(v" + std::to_string(b) + ")";
  }
  script_ += "echo case " + std::to_string(size()) + "\ncircbyline network\n" + lines;
  script_ += "circbyline .options noopac\ncircbyline .end\n";
  script_ += frequency_in_hz > 0.0 ? "ac lin 1 " + number(frequency_in_hz) + " " + number(frequency_in_hz) : "op";
  script_ += "\nprint v(" + node(probes.plus, probes) + ")" + printed + "\nremcirc\ndestroy all\n";
  branch_counts_.push_back(branches.size());
  return size() - 1;
}

std::size_t NgspiceBatch::add_ohms(const Network& network, std::span<const Change> changes, NodePair probes) {
  return add(network, changes, probes, "circbyline Iprobe 0 " + node(probes.plus, probes) + " DC 1\n", false, 0.0);
}

std::size_t NgspiceBatch::add_volts(const Network& network, std::span<const Change> changes, NodePair probes,
                                    double meter_in_ohm, double frequency_in_hz) {
  const std::string meter = "circbyline Rmeter " + node(probes.plus, probes) + " 0 " + number(meter_in_ohm) + "\n";
  return add(network, changes, probes, meter, true, frequency_in_hz);
}

std::optional<std::vector<std::optional<NgspiceBatch::Answer>>> NgspiceBatch::run() const {
  // Without "optran" a singular network would be answered by ramping its sources up in time, to some eleven digits.
  const auto output = run_program({"ngspice", "-b"}, "networks\n.control\nset numdgt=16\noptran 0 0 0 0 0 0\n" +
                                                         script_ + "echo done\nquit 0\n.endc\n.end\n");
  if (!output) return std::nullopt;
  std::vector<std::optional<Answer>> answers(size());
  std::size_t at = 0;
  std::istringstream lines(*output);
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind("case ", 0) == 0) at = std::stoul(line.substr(5));
    if (line.rfind("v(", 0) != 0 && line.rfind("i(v", 0) != 0) continue;
    std::optional<Answer>& answer = answers.at(at);
    if (!answer) answer = Answer{{}, std::vector<std::complex<double>>(branch_counts_[at])};
    if (line.front() == 'v') {
      answer->between_probes = value_of(line);
    } else {
      answer->currents.at(std::stoul(line.substr(3))) = value_of(line);
    }
  }
  return answers;
}

}  // namespace ohmwright::circuit::testing_support
