#pragma once

#include <optional>
#include <utility>
#include <vector>

#include <ohmwright/component/electrical.hpp>
#include <ohmwright/quantity/any_quantity.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

/// Where one part is to stand in for another.
struct ComparisonContext {
  Situation situation;  ///< what is known of the place: line voltage, frequency
  /// Span along the kind's first chart axis that matters; empty: the span the kind holds to be usual.
  std::optional<AnyQuantity> from;
  std::optional<AnyQuantity> to;
};

/// One statement of a comparison of two parts.
struct EquivalenceFinding {
  Outcome outcome = Outcome::undecided;  ///< within: equal enough here; out: not a replacement; silent: not compared
  TextEntry text;                        ///< of the kind's text domain
  FindingArguments arguments;
  /// Undecided because one of the two is known by ratings that stand for any part: so it is between two of one name.
  bool is_of_any_part = false;
};

/// Adds a statement, whose arguments are then told (`tell`). The reference holds until the next one is added.
inline EquivalenceFinding& add_statement(std::vector<EquivalenceFinding>& statements, Outcome outcome, TextEntry text) {
  EquivalenceFinding& added = statements.emplace_back();
  added.outcome = outcome;
  added.text = std::move(text);
  return added;
}

}  // namespace ohmwright
