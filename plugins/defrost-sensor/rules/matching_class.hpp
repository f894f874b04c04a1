#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// Generic classes that a part without ratings may belong to.
RuleDescriptor describe_matching_class();
void judge_matching_class(const Scene& scene);

/// Name of a class that every usable reading may well be of; empty where there is none. For a part that its own ratings
/// condemn: perhaps they are those of another.
std::string_view class_that_fits(const Scene& scene);

/// Whether the part alone was read, dry, at temperatures far enough apart to tell classes from each other.
bool read_at_several_temperatures(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
