#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include <ohmwright/appliance/appliance.hpp>

namespace ohmwright {

// What can be looked at, under one number: first the outside causes, in their order, then the looks at faults of parts
// (`Appliance::part_looks`).

/// What people read of a look. Refers to the appliance.
struct LookWords {
  const std::string& id;
  const std::string& title;  ///< of what is found by it
  const std::string& check;  ///< what to do
};

std::size_t number_of_looks(const Appliance& appliance);
LookWords look_words(const Appliance& appliance, std::size_t look);
double look_minutes(const Appliance& appliance, std::size_t look);
/// Whether it is plugged in and runs meanwhile.
bool runs_for_look(const Appliance& appliance, std::size_t look);

/// The outside cause that a look is at; nothing for one at a part.
std::optional<std::size_t> outside_cause_of_look(const Appliance& appliance, std::size_t look);
/// The faults that a look at a part tells of; null for one at an outside cause.
const std::vector<PartFault>* faults_of_look(const Appliance& appliance, std::size_t look);

/// The number of the look with that id.
std::optional<std::size_t> look_named(const Appliance& appliance, const std::string& id);

}  // namespace ohmwright
