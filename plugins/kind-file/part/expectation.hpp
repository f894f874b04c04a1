#pragma once

#include <optional>
#include <span>

#include <ohmwright/component/kind.hpp>

#include "model/definition.hpp"
#include "part/rated_figures.hpp"

namespace ohmwright::kind_file {

/// What a good part reads there: by the first rule on limits of that measurand of which the ratings say enough, and by
/// the first on its contact. Nothing where the ratings do not say, or a condition that the rule needs is missing.
std::optional<Expectation> expected_reading(const Definition& definition, std::span<const KnownRule> rules,
                                            std::uint16_t measurand, const Situation& situation);

/// The share of good parts whose contact is closed [0…1]: all or none beyond the ends, and between them falling or
/// rising evenly, since ends say no more. Nothing where an end that is needed is not known.
std::optional<double> share_closed(const ContactForm& form, const KnownRule& rule, const Situation& situation);

/// The nominal value and its limits at the conditions of the situation, for a rule on limits.
std::optional<Expectation> expected_by_limits(const RuleForm& form, const KnownRule& rule, Dimension dimension,
                                              const Situation& situation);

}  // namespace ohmwright::kind_file
