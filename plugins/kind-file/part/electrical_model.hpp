#pragma once

#include <span>
#include <vector>

#include <ohmwright/component/electrical.hpp>

#include "model/definition.hpp"
#include "part/rated_figures.hpp"

namespace ohmwright::kind_file {

/// Appends what lies between two terminals; nothing where the ratings or the situation do not say how much.
void append_element(const Definition& definition, std::span<const KnownRule> rules, const RatingValues& ratings,
                    const ElementRow& row, const Situation& situation, std::vector<Element>& elements);

}  // namespace ohmwright::kind_file
