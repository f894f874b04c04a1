#pragma once

#include <optional>
#include <span>

#include <ohmwright/component/electrical.hpp>

#include "model/definition.hpp"
#include "part/rated_figures.hpp"

namespace ohmwright::kind_file {

/// What lies between two terminals; nothing where the ratings or the situation do not say how much.
std::optional<Element> element_of(const Definition& definition, std::span<const KnownRule> rules,
                                  const RatingValues& ratings, const ElementRow& row, const Situation& situation);

}  // namespace ohmwright::kind_file
