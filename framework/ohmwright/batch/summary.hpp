#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright::batch {

// What a batch found, as whole numbers only: sums of whole numbers are the same in every grouping, so the summaries of
// shards, threads and resumed runs add up to that of the unbroken run, bit for bit.

/// How often each outcome was found.
struct OutcomeCounts {
  std::uint64_t within = 0;
  std::uint64_t out = 0;
  std::uint64_t undecided = 0;

  void count(Outcome outcome);
  void add(const OutcomeCounts& other);
  std::uint64_t all() const { return within + out + undecided; }
  friend bool operator==(const OutcomeCounts&, const OutcomeCounts&) = default;
};

/// A whole number of 128 bits, enough for the squares of more lines than there will be.
struct WideCount {
  std::uint64_t high = 0;
  std::uint64_t low = 0;

  void add(WideCount other);
  double as_double() const;
  /// Hexadecimal digits, 32 of them.
  std::string text() const;
  /// The number of such a text, or nothing.
  static std::optional<WideCount> from_text(std::string_view text);
  friend bool operator==(const WideCount&, const WideCount&) = default;
};

/// Where measured values lay between their limits: −1 at the lower, 0 in the middle, +1 at the upper one. Kept in steps
/// of `place_step`, at most `farthest_place` to either side.
struct Places {
  static constexpr double place_step = 1e-4;
  static constexpr double farthest_place = 100.0;

  std::uint64_t count = 0;
  std::int64_t sum = 0;  ///< of the steps
  WideCount sum_of_squares;

  /// Takes a place, which must be a number.
  void take(double place);
  void add(const Places& other);
  /// Mean place [dimensionless]; 0 of none.
  double mean() const;
  /// Standard deviation of one place (n − 1), 0 of fewer than two.
  double standard_deviation() const;
  friend bool operator==(const Places&, const Places&) = default;
};

/// What was found of one rule.
struct RuleSummary {
  OutcomeCounts outcomes;
  Places places;  ///< of what it measured, where it has two limits

  void add(const RuleSummary& other);
  friend bool operator==(const RuleSummary&, const RuleSummary&) = default;
};

/// What was found of a population: a kind, or a lot of it.
struct Population {
  OutcomeCounts verdicts;
  std::map<std::string, RuleSummary, std::less<>> rules;

  void add(const Population& other);
  friend bool operator==(const Population&, const Population&) = default;
};

struct KindSummary {
  Population all;
  std::map<std::string, Population, std::less<>> lots;

  void add(const KindSummary& other);
  friend bool operator==(const KindSummary&, const KindSummary&) = default;
};

struct Summary {
  std::uint64_t refused = 0;    ///< lines that could not be judged
  std::uint64_t cut_short = 0;  ///< compressed files of which a part is lost; the records say where
  std::map<std::string, KindSummary, std::less<>> kinds;

  /// Associative and commutative; an empty summary changes nothing.
  void add(const Summary& other);
  std::uint64_t judged() const;
  friend bool operator==(const Summary&, const Summary&) = default;
};

/// A lot whose values lie elsewhere between their limits than those of the other lots.
struct Drift {
  double difference = 0.0;      ///< mean place of the lot less the one it is compared with [dimensionless]
  double standard_error = 0.0;  ///< of the difference (Welch, Biometrika 34 (1947) 28)
  /// At least three standard errors (the limits of Shewhart's control charts, ISO 7870-2) and a twentieth of the way
  /// from the middle to a limit, of ten parts or more on either side (common practice, no source).
  bool is_drift = false;
};

/// How the lots of a kind lie to each other by one rule.
struct LotComparison {
  /// By the lot's name; a lot is missing where it or what it is compared with has fewer than two places.
  std::map<std::string, Drift, std::less<>> lots;
  /// Two lots alone that differ: which of them is as it should be they cannot tell. Each is compared with the other.
  bool two_alone = false;
};

/// Compares each lot with the median of the lots' mean places, which a few lots that lie elsewhere do not move, as they
/// would move a common mean. The standard error is the lot's and that of the lots around the median. Only sums of whole
/// numbers enter, so that merged summaries say what one run says.
LotComparison compare_lots(const KindSummary& kind, std::string_view rule);

}  // namespace ohmwright::batch
