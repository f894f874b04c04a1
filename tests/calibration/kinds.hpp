#pragma once

#include <memory>
#include <ostream>
#include <string>
#include <vector>

#include <ohmwright/plugin/loaded_kind.hpp>
#include <ohmwright/plugin/registry.hpp>

#include "simulated_part.hpp"

namespace ohmwright::calibration {

/// A kind whose parts are simulated: one of its shipped classes, how it is read, and the tolerance that counts.
struct CalibratedKind {
  std::string kind;
  std::string ratings;
  Workplace workplace;
  double tolerance = 0.05;  ///< of the class, as ln: the width of the bench population
};

/// How a test calls it.
inline void PrintTo(const CalibratedKind& kind, std::ostream* out) { *out << kind.kind; }

/// The kinds that are built here, of those that a continuous reading at a temperature decides.
std::vector<CalibratedKind> calibrated_kinds(const Registry& registry);

/// The part of the shipped class.
std::shared_ptr<const Part> part_of(const Registry& registry, const CalibratedKind& calibrated);

/// The shipped basic meter.
Meter basic_meter();

/// The plugins of the build tree.
const Registry& built_registry();

}  // namespace ohmwright::calibration
