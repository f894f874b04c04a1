#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/reading.hpp>
#include <ohmwright/quantity/unit_preferences.hpp>

#include "verb.hpp"

namespace ohmwright::cli {

/// A circumstance as typed: the option without its dashes, and its value (empty for a flag).
struct CircumstanceWord {
  std::string option;
  std::string value;
  bool of_one_reading = false;  ///< said within the reading's word: its error is its own
  int said_for = for_all;       ///< group that it was said after; readings that it holds for share its error

  static constexpr int for_all = -1;
};

/// What can be said of readings beside the conditions of their kind.
std::span<const OptionSpec> circumstance_options();

/// The row of `circumstance_options` with that name (without dashes), or null.
const OptionSpec* circumstance_named(std::string_view option);

/// Whether no reading can have both: wet and dry, live and unplugged.
bool contradict(std::string_view option, std::string_view other);

/// Notes on the reading what was said of it; units that were typed go to `units`. Throws InputError for a value that
/// is none of the condition's dimension.
void apply(const CircumstanceWord& circumstance, const Descriptor& descriptor, UnitPreferences& units,
           Reading& reading);

/// Notes on readings of a file what was typed for all readings. Throws InputError where the file says it too, since two
/// readers would take it in two ways.
void apply_to_all(std::span<const CircumstanceWord> said_for_all, const Descriptor& descriptor, UnitPreferences& units,
                  std::span<Reading> readings);

}  // namespace ohmwright::cli
