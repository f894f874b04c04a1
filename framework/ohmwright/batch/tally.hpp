#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include <ohmwright/batch/summary.hpp>
#include <ohmwright/component/descriptor.hpp>

namespace ohmwright::batch {

/// Counts the verdicts of one kind by indices, where a `Summary` counts by names. One a thread and kind.
class Tally {
 public:
  explicit Tally(const Descriptor& descriptor) : descriptor_(descriptor), all_(descriptor) {}

  /// Counts a verdict; an empty `lot` means that none was said.
  void count(const Verdict& verdict, std::string_view lot);
  /// Adds what was counted to `summary`, and begins anew.
  void move_to(Summary& summary);

 private:
  struct Counts {
    explicit Counts(const Descriptor& descriptor) : rules(descriptor.rules.size()) {}
    OutcomeCounts verdicts;
    std::vector<RuleSummary> rules;

    void take(const Finding& finding, const std::optional<double>& place);
    Population named(const Descriptor& descriptor) const;
  };
  /// Looks names up without making a string of them.
  struct Hash {
    using is_transparent = void;
    std::size_t operator()(std::string_view text) const { return std::hash<std::string_view>()(text); }
  };

  Counts& counts_of(std::string_view lot);

  const Descriptor& descriptor_;
  Counts all_;
  std::unordered_map<std::string, Counts, Hash, std::equal_to<>> lots_;
};

}  // namespace ohmwright::batch
