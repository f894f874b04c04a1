#include "part/part_of_file.hpp"

#include <algorithm>

#include "part/electrical_model.hpp"
#include "part/expectation.hpp"
#include "rules/advice.hpp"
#include "rules/contact_rule.hpp"
#include "rules/insulation_rule.hpp"
#include "rules/limits_rule.hpp"

namespace ohmwright::kind_file {

namespace {

/// Whether a part of these ratings has what only parts have whose ratings state that figure; a part of which nothing is
/// known may have it.
bool has_what_is_rated(std::uint16_t figure, const RatingValues& ratings) {
  const bool is_known =
      std::any_of(ratings.begin(), ratings.end(), [](const auto& value) { return value.has_value(); });
  return figure == not_found || !is_known || ratings[figure].has_value();
}

}  // namespace

void PartOfFile::judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const {
  const Scene scene{definition_, rules_, evidence, settings, findings};
  for (std::size_t i = 0; i < rules_.size(); ++i) {
    const auto rule = static_cast<std::uint16_t>(i);
    if (definition_.rules[rule].limits() != nullptr)
      judge_limits(scene, rule);
    else if (definition_.rules[rule].contact() != nullptr)
      judge_contact(scene, rule);
  }
  for (std::size_t i = 0; i < rules_.size(); ++i)
    if (definition_.rules[i].insulation() != nullptr) judge_insulation(scene, static_cast<std::uint16_t>(i));
  advise(scene);
}

std::optional<Expectation> PartOfFile::expect(std::uint16_t measurand, const Situation& situation) const {
  return expected_reading(definition_, rules_, measurand, situation);
}

ModelAnswer PartOfFile::electrical_model(std::uint16_t fault_mode, const Situation& situation,
                                         std::vector<Element>& elements) const {
  if (fault_mode != not_found && fault_mode >= definition_.faulty_elements.size()) return ModelAnswer::not_applicable;
  if (fault_mode != not_found && !has_what_is_rated(definition_.faults_if_rated[fault_mode], ratings_))
    return ModelAnswer::not_applicable;
  const std::vector<ElementRow>& rows =
      fault_mode == not_found ? definition_.elements : definition_.faulty_elements[fault_mode];
  if (rows.empty()) return ModelAnswer::unknown;
  const std::size_t before = elements.size();
  for (const ElementRow& row : rows) {
    if (!has_what_is_rated(row.if_rated, ratings_)) continue;
    const std::optional<Element> element = element_of(definition_, rules_, ratings_, row, situation);
    if (!element) {
      elements.resize(before);
      return ModelAnswer::unknown;
    }
    elements.push_back(*element);
  }
  return ModelAnswer::stated;
}

}  // namespace ohmwright::kind_file
