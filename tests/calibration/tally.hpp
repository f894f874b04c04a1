#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>

#include <ohmwright/verdict/verdict.hpp>

#include "simulated_part.hpp"

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
  Decisions verdicts;     ///< the conformance probability at c
  Decisions chart_at_25;  ///< within ±10 % of what the chart says at 25 °C, whatever the temperature
  Decisions ten_percent;  ///< within ±10 % of what the chart says at the temperature that was noted
  std::size_t parts = 0;
};

/// A run of `parts` simulated parts of a kind.
struct Run {
  const Part& part;
  const Descriptor& descriptor;
  const Meter& meter;
  Workplace workplace;
  const Population& population;
  std::size_t parts = 0;
  std::uint64_t seed = 0;
  double confidence = 0.95;
};

/// Draws, reads and judges.
Tally run(const Run& run);

/// The table of a run, as Markdown.
std::string table_of(const std::string& title, const Tally& tally);

}  // namespace ohmwright::calibration
