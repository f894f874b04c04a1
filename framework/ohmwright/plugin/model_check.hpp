#pragma once

#include <optional>
#include <span>
#include <string>

#include <ohmwright/component/kind.hpp>

namespace ohmwright {

// Why what a plugin says of its parts cannot be used, or nothing: the counterpart of `misuse_of_findings` for all that
// is no finding. Whoever solves a circuit or draws a chart from these need not look at them again.

/// Most elements of one electrical model, and most points within the part.
inline constexpr std::size_t most_elements = 64;
inline constexpr std::size_t most_inner_points = 16;

/// Elements have a type that there is, finite values not below zero, half-widths and shares from 0 to 1, terminals of
/// the kind or a few points within; there are not more than `most_elements`.
std::optional<std::string> misuse_of_elements(std::span<const Element> elements, const Descriptor& descriptor);

/// What a good part reads: of the measurand's dimension, finite, lower limits not above upper ones.
std::optional<std::string> misuse_of_expectation(const Expectation& expectation, const MeasurandDescriptor& measurand);

/// Fitted figures are finite, their uncertainties not below zero, remarks are of rows that there are.
std::optional<std::string> misuse_of_fitting(const Fitting& fitting, std::size_t rows);

/// Statements of a comparison have an outcome that there is, a text, and arguments that can be printed.
std::optional<std::string> misuse_of_comparison(const std::vector<EquivalenceFinding>& findings);

}  // namespace ohmwright
