#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include "simulated_log.hpp"

namespace ohmwright::cycles::testing_support {

/// How well the events found agree with the true ones, over many logs.
struct EventTally {
  std::size_t expected = 0;  ///< true defrosts that the log shows whole
  std::size_t found = 0;
  std::size_t claimed = 0;  ///< found, but for those that gaps hide in part
  std::size_t false_ones = 0;
  std::size_t late = 0;    ///< onset off by more than two rows and more than 60 s
  std::size_t causes = 0;  ///< where a cause was told or can be told
  std::size_t right_causes = 0;
  std::size_t wrong_causes = 0;  ///< told, and not so
  std::string misses;            ///< some, for the failure message

  double recall() const { return expected == 0 ? 1.0 : static_cast<double>(found) / static_cast<double>(expected); }
  double precision() const {
    return claimed == 0 ? 1.0 : 1.0 - static_cast<double>(false_ones) / static_cast<double>(claimed);
  }
  double onset_share() const { return found == 0 ? 1.0 : 1.0 - static_cast<double>(late) / static_cast<double>(found); }
  double cause_share() const {
    return causes == 0 ? 1.0 : static_cast<double>(right_causes) / static_cast<double>(causes);
  }

  void add(const SimulatedLog& log, const LogAnalysis& analysis, std::uint64_t seed) {
    const double reach = std::max(60.0, 2.0 * log.plan.spacing_second);
    const auto note = [&](const char* what, double second) {
      if (misses.size() < 4000)
        misses +=
            std::string(what) + " seed " + std::to_string(seed) + " at " + std::to_string(std::lround(second)) + "\n";
    };
    const auto meet = [&](const Defrost& one, const TrueDefrost& truth) {
      return one.start_second < truth.end_second + reach && one.end_second > truth.start_second - reach;
    };
    // One for one: a long event does not stand for several, nor a torn one for as many as its parts.
    std::vector<bool> taken(analysis.defrosts.size(), false);
    for (const TrueDefrost& truth : log.defrosts) {
      auto match = analysis.defrosts.end();
      for (auto one = analysis.defrosts.begin(); one != analysis.defrosts.end(); ++one) {
        if (taken[static_cast<std::size_t>(one - analysis.defrosts.begin())] || !meet(*one, truth)) continue;
        const bool is_nearer =
            match == analysis.defrosts.end() ||
            std::abs(one->start_second - truth.start_second) < std::abs(match->start_second - truth.start_second);
        if (is_nearer) match = one;
      }
      if (match != analysis.defrosts.end()) taken[static_cast<std::size_t>(match - analysis.defrosts.begin())] = true;
      if (truth.is_hidden) continue;
      ++expected;
      if (match == analysis.defrosts.end()) {
        note("missed", truth.start_second);
        continue;
      }
      ++found;
      if (std::abs(match->start_second - truth.start_second) > reach) {
        ++late;
        note("onset", truth.start_second);
      }
      if (match->cause == EndCause::unknown) continue;
      ++causes;
      if (match->cause == truth.cause) {
        ++right_causes;
      } else {
        ++wrong_causes;
        note("cause", truth.start_second);
      }
    }
    for (std::size_t i = 0; i < analysis.defrosts.size(); ++i) {
      const Defrost& one = analysis.defrosts[i];
      // A gap may tear one of which it hides a part.
      const bool is_of_hidden = std::any_of(log.defrosts.begin(), log.defrosts.end(), [&](const TrueDefrost& truth) {
        return truth.is_hidden && meet(one, truth);
      });
      if (is_of_hidden) continue;
      ++claimed;
      if (taken[i]) continue;
      ++false_ones;
      note("false", one.start_second);
    }
  }
};

}  // namespace ohmwright::cycles::testing_support
