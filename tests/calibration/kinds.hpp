#pragma once

#include <memory>
#include <ostream>
#include <string>
#include <variant>
#include <vector>

#include <ohmwright/plugin/loaded_kind.hpp>
#include <ohmwright/plugin/registry.hpp>

#include "resistance_workshop.hpp"
#include "trip_workshop.hpp"

namespace ohmwright::calibration {

/// A kind whose parts are simulated: one of its shipped classes, how it is read, and how far its parts are off.
struct CalibratedKind {
  std::string title;  ///< of its table
  std::string kind;
  std::string ratings;
  std::variant<ResistanceReading, TripWatch> reading;
  double tolerance;        ///< of the class: the width of the bench population; as ln R, of a trip point in kelvin
  double flat_half_width;  ///< of the flat population, wide against tolerance and doubt
  double farthest_drift;   ///< of the bench population
};

/// How a test calls it.
inline void PrintTo(const CalibratedKind& kind, std::ostream* out) { *out << kind.title; }

/// The kinds that are built here, of those that are known.
std::vector<CalibratedKind> calibrated_kinds(const Registry& registry);

/// The part of the shipped class.
std::shared_ptr<const Part> part_of(const Registry& registry, const CalibratedKind& calibrated);

/// Where its parts are read, drawn from what a conformance probability takes for granted.
std::unique_ptr<Workshop> flat_workshop(const Registry& registry, const CalibratedKind& calibrated);

/// Where its parts are read, drawn from a bench of failed appliances.
std::unique_ptr<Workshop> bench_workshop(const Registry& registry, const CalibratedKind& calibrated);

/// The shipped basic meter.
Meter basic_meter();

/// The plugins of the build tree.
const Registry& built_registry();

}  // namespace ohmwright::calibration
