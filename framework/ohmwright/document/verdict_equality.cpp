#include <algorithm>

#include <ohmwright/document/bitwise.hpp>
#include <ohmwright/document/verdict_record.hpp>

namespace ohmwright {

namespace {

template <class List, class Equal>
bool equal_lists(const List& a, const List& b, Equal equal_entries) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), equal_entries);
}

bool equal_arguments(const FindingArgument& a, const FindingArgument& b) {
  if (a.name != b.name || a.value.index() != b.value.index()) return false;
  if (const auto* quantity = std::get_if<AnyQuantity>(&a.value))
    return same_bits(*quantity, std::get<AnyQuantity>(b.value));
  if (const auto* number = std::get_if<double>(&a.value)) return same_bits(*number, std::get<double>(b.value));
  return a.value == b.value;
}

bool equal_terms(const Term& a, const Term& b) {
  return a.source == b.source && same_bits(a.standard_uncertainty, b.standard_uncertainty);
}

bool equal_estimates(const std::optional<Estimate>& a, const std::optional<Estimate>& b) {
  if (!a || !b) return a.has_value() == b.has_value();
  return same_bits(a->value(), b->value()) && equal_lists(a->terms(), b->terms(), equal_terms);
}

bool equal_findings(const Finding& a, const Finding& b) {
  return a.rule == b.rule && a.outcome == b.outcome && a.text == b.text && a.holds_back == b.holds_back &&
         equal_lists(a.arguments, b.arguments, equal_arguments) && same_bits(a.measured, b.measured) &&
         same_bits(a.measured_uncertainty, b.measured_uncertainty) && same_bits(a.limits.lower, b.limits.lower) &&
         same_bits(a.limits.upper, b.limits.upper) && a.meaning == b.meaning &&
         same_bits(a.probability, b.probability) && equal_estimates(a.judged, b.judged) &&
         same_bits(a.judged_lower, b.judged_lower) && same_bits(a.judged_upper, b.judged_upper);
}

bool equal_advice(const Advice& a, const Advice& b) {
  return a.text == b.text && equal_lists(a.arguments, b.arguments, equal_arguments) &&
         same_bits(a.probability_decided, b.probability_decided);
}

}  // namespace

bool equal(const Verdict& a, const Verdict& b) {
  return a.outcome == b.outcome && same_bits(a.probability_within, b.probability_within) && a.drawing == b.drawing &&
         equal_lists(a.findings, b.findings, equal_findings) &&
         equal_lists(a.budget, b.budget,
                     [](const BudgetShare& x, const BudgetShare& y) {
                       return x.source == y.source && same_bits(x.share, y.share);
                     }) &&
         equal_lists(a.advice, b.advice, equal_advice);
}

bool equal(const ErrorSource& a, const ErrorSource& b) {
  return a.id == b.id && a.of == b.of && a.shape == b.shape && same_bits(a.degrees_of_freedom, b.degrees_of_freedom);
}

}  // namespace ohmwright
