#include <algorithm>
#include <cmath>
#include <set>
#include <variant>

#include <ohmwright/plugin/model_check.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

bool is_share(double share) { return share >= 0.0 && share <= 1.0; }  // false for what is not a number

bool has_finite(const FindingArguments& arguments) {
  return std::all_of(arguments.begin(), arguments.end(), [](const FindingArgument& argument) {
    if (argument.name.empty()) return false;
    if (const auto* quantity = std::get_if<AnyQuantity>(&argument.value)) return std::isfinite(quantity->value_in_si());
    const auto* number = std::get_if<double>(&argument.value);
    return number == nullptr || std::isfinite(*number);
  });
}

const char* wrong_with(const Element& element) {
  if (element.type > ElementType::contact) return "gives an element of a type that there is not";
  if (element.from == element.to) return "gives an element that begins where it ends";
  if (!std::isfinite(element.value_in_si)) return "gives an element whose value is not a number";
  if (element.value_in_si < 0.0) return "gives an element whose value lies below zero";
  if (!is_share(element.relative_half_width)) return "gives an element whose tolerance is not within 0 and 1";
  if (!is_share(element.probability_closed)) return "gives a contact whose share closed is not within 0 and 1";
  return nullptr;
}

/// Of limits one may be absent, and a chart's may lie past all numbers; none may be not-a-number.
const char* wrong_with(const Limits& limits, Dimension dimension) {
  for (const auto& limit : {limits.lower, limits.upper}) {
    if (!limit) continue;
    if (limit->dimension() != dimension) return "gives a limit of another dimension";
    if (std::isnan(limit->value_in_si())) return "gives a limit that is not a number";
  }
  if (limits.lower && limits.upper && limits.lower->value_in_si() > limits.upper->value_in_si())
    return "gives a lower limit above the upper one";
  return nullptr;
}

}  // namespace

std::optional<std::string> misuse_of_elements(std::span<const Element> elements, const Descriptor& descriptor) {
  if (elements.size() > most_elements) {
    return "its electrical model gives " + std::to_string(elements.size()) + " elements, more than " +
           std::to_string(most_elements);
  }
  std::set<std::uint16_t> inner_points;
  for (const Element& element : elements) {
    if (const char* wrong = wrong_with(element)) return std::string("its electrical model ") + wrong;
    for (const std::uint16_t point : {element.from, element.to})
      if (point >= descriptor.terminals.size()) inner_points.insert(point);
  }
  if (inner_points.size() > most_inner_points) {
    return "its electrical model has " + std::to_string(inner_points.size()) + " points within the part, more than " +
           std::to_string(most_inner_points);
  }
  return std::nullopt;
}

std::optional<std::string> misuse_of_expectation(const Expectation& expectation, const MeasurandDescriptor& measurand) {
  const auto wrong = [&](const char* what) {
    return "what it expects of " + ohmwright::quoted(measurand.id) + " " + what;
  };
  if (expectation.nominal.dimension() != measurand.dimension) return wrong("is of another dimension");
  if (std::isnan(expectation.nominal.value_in_si())) return wrong("is not a number");
  if (!(expectation.model_standard_error >= 0.0)) return wrong("has a doubt that is not a number from 0 on");
  if (expectation.share_closed && !is_share(*expectation.share_closed))
    return wrong("has a share closed that is not within 0 and 1");
  if (const char* text = wrong_with(expectation.limits, measurand.dimension)) return wrong(text);
  return std::nullopt;
}

std::optional<std::string> misuse_of_fitting(const Fitting& fitting, std::size_t rows) {
  for (const FittedRatings& form : fitting.forms) {
    for (const FittedFigure& figure : form.figures) {
      if (!std::isfinite(figure.value) || !(figure.standard_uncertainty >= 0.0))
        return "its fit gives a figure " + ohmwright::quoted(figure.name) + " that is not a number with its doubt";
    }
    if (form.residuals.size() > rows) return "its fit gives more residuals than there are rows";
  }
  for (const RowRemark& remark : fitting.remarks) {
    if (remark.row >= rows && remark.row != all_rows) return "its fit speaks of a row that there is not";
    if (!has_finite(remark.arguments)) return "its fit remarks something that is not a number";
  }
  return std::nullopt;
}

std::optional<std::string> misuse_of_comparison(const std::vector<EquivalenceFinding>& findings) {
  for (const EquivalenceFinding& finding : findings) {
    if (finding.outcome > Outcome::silent) return "its comparison gives an outcome that there is not";
    if (finding.text.english.empty()) return "its comparison gives a statement without a text";
    if (!has_finite(finding.arguments)) return "its comparison states something that is not a number";
  }
  return std::nullopt;
}

}  // namespace ohmwright
