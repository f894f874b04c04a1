#include "appliance/marks.hpp"

#include <algorithm>
#include <utility>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::cli {

namespace {

/// "heater=0.31" or "heater=31%": a part and its probability.
std::pair<std::string, double> typed_mark(const std::string& word) {
  const std::size_t equals = word.find('=');
  const std::string number = equals == std::string::npos ? "" : word.substr(equals + 1);
  try {
    const StatedValue share = parse_stated_value(number, Dimension::ratio);
    if (share.value.value_in_si() >= 0.0 && share.value.value_in_si() <= 1.0)
      return {word.substr(0, equals), share.value.value_in_si()};
  } catch (const InputError&) {  // told below, with what was typed
  }
  throw InputError("--mark takes PART=PROBABILITY, such as heater=31%, got " + ohmwright::quoted(word));
}

/// By part, from what locate gave as JSON.
std::vector<double> probabilities_found(const Document& document, const Appliance& appliance) {
  std::vector<Problem> problems = locate_schema().problems(document);
  std::vector<double> probabilities(appliance.parts.size(), 0.0);
  const std::vector<std::string> ids = ids_of(appliance.parts);
  for (const ValueNode& row : list_of(document.root, "parts")) {
    const ValueNode* id = row.find("part");
    if (id == nullptr || id->text() == nullptr) continue;
    const auto found = std::find(ids.begin(), ids.end(), *id->text());
    if (found == ids.end())
      problems.push_back(id->problem("the appliance has no part " + ohmwright::quoted(*id->text()) +
                                     "; is this what locate gave for another one?"));
    else
      probabilities[static_cast<std::size_t>(found - ids.begin())] = number_of(row, "probability").value_or(0.0);
  }
  refuse_if_any(document.file, std::move(problems));
  return probabilities;
}

}  // namespace

PartMarks typed_marks(const Arguments& arguments, const Appliance& appliance, const Sentences& say) {
  const auto typed = arguments.options.find("--mark");
  if (typed == arguments.options.end()) {
    if (!arguments.has("--after")) return {};
    return marks_of(probabilities_found(read_document_to_check(arguments.value("--after")), appliance), say);
  }
  if (arguments.has("--after")) throw InputError("--mark and --after both say which parts to mark; give one of them");
  std::vector<double> probabilities(appliance.parts.size(), 0.0);
  for (const std::string& word : typed->second) {
    const auto [id, probability] = typed_mark(word);
    const std::vector<std::string> ids = ids_of(appliance.parts);
    const auto found = std::find(ids.begin(), ids.end(), id);
    if (found == ids.end())
      throw InputError("the appliance has no part " + ohmwright::quoted(id) + did_you_mean(id, ids) +
                       "; it has: " + listed(ids));
    probabilities[static_cast<std::size_t>(found - ids.begin())] = probability;
  }
  return marks_of(probabilities, say);
}

}  // namespace ohmwright::cli
