#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/meter.hpp>

#include "workshop.hpp"

namespace ohmwright::calibration {

/// Parts whose stated probability fell into one tenth.
struct Decile {
  std::size_t count = 0;
  double stated = 0.0;  ///< sum of the stated probabilities
  std::size_t within = 0;

  double stated_share() const { return stated / static_cast<double>(count); }
  double observed_share() const { return static_cast<double>(within) / static_cast<double>(count); }
};

/// What one way of deciding did with the parts.
struct Decisions {
  std::size_t passed = 0;
  std::size_t passed_bad = 0;
  std::size_t condemned = 0;
  std::size_t condemned_good = 0;
  std::size_t undecided = 0;

  void take(Outcome outcome, bool truly_within);
  double bad_among_passed() const;
  double good_among_condemned() const;
  double undecided_share() const;
};

/// Everything that came of one run.
struct Tally {
  std::array<Decile, 10> deciles;
  Decisions verdicts;                   ///< the conformance probability at c
  std::vector<Decisions> by_the_trade;  ///< in the order of the workshop's ways of the trade
  std::size_t parts = 0;
};

/// A run of `parts` simulated parts of a kind.
struct Run {
  const Part& part;
  const Descriptor& descriptor;
  const Meter& meter;
  const Workshop& workshop;
  std::size_t parts = 0;
  std::uint64_t seed = 0;
  double confidence = 0.95;
};

/// Draws, reads and judges.
Tally run(const Run& run);

/// The table of a run, as Markdown.
std::string table_of(const std::string& title, const Workshop& workshop, const Tally& tally);

}  // namespace ohmwright::calibration
