#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include <ohmwright/cycles/verdicts/log_figures.hpp>
#include <ohmwright/cycles/verdicts/log_verdict.hpp>

namespace ohmwright::cycles {

/// How a rule's word on the log before stands to its word on the log after.
enum class RepairStand : std::uint8_t {
  gone,         ///< out of limits before, within after
  still_there,  ///< out of limits in both
  appeared,     ///< out of limits after only
  unproved,     ///< out of limits before, and the log after cannot tell
  fine,         ///< never out of limits
};
std::string_view name_of(RepairStand stand);

struct RuleChange {
  std::string_view rule;
  LogVerdict before;
  LogVerdict after;
  RepairStand stand = RepairStand::fine;
};

/// A repair, by a log from before it and a log from after it.
struct RepairComparison {
  /// Within limits: every fault of the log before is gone, and none came. Out of limits: one is there after. Undecided:
  /// the log after cannot tell of one, or the log before showed none.
  Outcome outcome = Outcome::undecided;
  bool fault_before = false;  ///< a rule found the log before out of limits
  std::vector<RuleChange> rules;
  std::vector<FigureChange> figures;
  std::vector<LogFinding> unproved;  ///< what the log after cannot show of the repair
};

RepairComparison compare_repair(const LogAnalysis& before, const LogAnalysis& after, const LogRatings& ratings,
                                const JudgeSettings& settings = {});

}  // namespace ohmwright::cycles
