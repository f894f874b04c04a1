#include <limits>
#include <map>
#include <utility>
#include <variant>

#include <nlohmann/json.hpp>

#include <ohmwright/batch/summary_document.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::batch {

namespace {

using Json = nlohmann::ordered_json;

Json outcomes_json(const OutcomeCounts& counts) {
  return {{"within-limits", counts.within}, {"out-of-limits", counts.out}, {"undecided", counts.undecided}};
}

Json places_json(const Places& places) {
  return {{"count", places.count},
          {"sum", places.sum},
          {"sum_of_squares", places.sum_of_squares.text()},
          {"mean", places.mean()},
          {"standard_deviation", places.standard_deviation()}};
}

/// By rule, how the lots of a kind lie to each other.
using Comparisons = std::map<std::string, LotComparison, std::less<>>;

Comparisons comparisons_of(const KindSummary& kind) {
  Comparisons comparisons;
  for (const auto& [name, rule] : kind.all.rules)
    if (rule.places.count > 0) comparisons[name] = compare_lots(kind, name);
  return comparisons;
}

/// How the lot lies to the others by that rule, or null.
const Drift* drift_of(const std::string& lot, const std::string& rule, const Comparisons& comparisons) {
  const auto comparison = comparisons.find(rule);
  if (comparison == comparisons.end()) return nullptr;
  const auto found = comparison->second.lots.find(lot);
  return found == comparison->second.lots.end() ? nullptr : &found->second;
}

/// An empty `lot` stands for the whole kind, which is compared with nothing.
Json population_json(const Population& population, const std::string& lot, const Comparisons& comparisons) {
  Json json{{"verdicts", outcomes_json(population.verdicts)}, {"rules", Json::array()}};
  for (const auto& [name, rule] : population.rules) {
    Json entry{{"rule", name}, {"outcomes", outcomes_json(rule.outcomes)}};
    if (rule.places.count > 0) entry["places"] = places_json(rule.places);
    if (const Drift* drift = lot.empty() ? nullptr : drift_of(lot, name, comparisons))
      entry["drift"] = {
          {"difference", drift->difference}, {"standard_error", drift->standard_error}, {"is_drift", drift->is_drift}};
    json["rules"].push_back(std::move(entry));
  }
  return json;
}

Json part_json(const RunPart& part) {
  Json files = Json::object();
  for (const auto& [what, file] : part.files) files[what] = file.sha256;
  Json json{{"program", part.run.program}, {"options", part.run.options}, {"input", part.run.input}, {"files", files}};
  if (part.is_whole()) return json;
  json["shards"] = part.shards;
  json["have"] = Json::array();
  for (const auto& [first, last] : part.have) json["have"].push_back(Json::array({first, last}));
  return json;
}

std::uint64_t count_of(const ValueNode& object, std::string_view field) {
  return static_cast<std::uint64_t>(number_of(object, field).value_or(0.0));
}

OutcomeCounts outcomes_of(const ValueNode* node) {
  if (node == nullptr) return {};
  return {count_of(*node, "within-limits"), count_of(*node, "out-of-limits"), count_of(*node, "undecided")};
}

Places places_of(const ValueNode* node) {
  if (node == nullptr) return {};
  return {count_of(*node, "count"), static_cast<std::int64_t>(number_of(*node, "sum").value_or(0.0)),
          WideCount::from_text(text_of(*node, "sum_of_squares")).value_or(WideCount{})};
}

RunPart part_of(const ValueNode& node) {
  RunPart part{{text_of(node, "program"), {}, text_of(node, "input")}, {}, 1, {}};
  for (const ValueNode& option : list_of(node, "options"))
    if (const std::string* text = option.text()) part.run.options.push_back(*text);
  const ValueNode* files = node.find("files");
  if (const auto* members = files == nullptr ? nullptr : std::get_if<ValueNode::Members>(&files->value()))
    for (const auto& [what, digest] : *members)
      if (const std::string* text = digest.text()) part.files[what] = {{}, *text};
  if (node.find("shards") != nullptr) part.shards = count_of(node, "shards");
  for (const ValueNode& range : list_of(node, "have"))
    if (const auto* ends = std::get_if<ValueNode::Array>(&range.value()); ends != nullptr && ends->size() == 2)
      part.have.emplace_back(static_cast<std::uint64_t>(*(*ends)[0].number()),
                             static_cast<std::uint64_t>(*(*ends)[1].number()));
  if (part.have.empty()) part.have.emplace_back(1, part.shards);
  return part;
}

Population population_of(const ValueNode& node) {
  Population population{outcomes_of(node.find("verdicts")), {}};
  for (const ValueNode& entry : list_of(node, "rules"))
    population.rules[text_of(entry, "rule")].add(
        {outcomes_of(entry.find("outcomes")), places_of(entry.find("places"))});
  return population;
}

}  // namespace

std::string summary_json(const Summary& summary, const RunPart* part) {
  Json json{{"judged", summary.judged()}, {"refused", summary.refused}, {"cut_short", summary.cut_short}};
  if (part != nullptr) json["run"] = part_json(*part);
  json["kinds"] = Json::array();
  for (const auto& [name, kind] : summary.kinds) {
    Json entry{{"kind", name}};
    const Comparisons comparisons = comparisons_of(kind);
    entry.update(population_json(kind.all, {}, comparisons));
    entry["lots"] = Json::array();
    for (const auto& [lot, population] : kind.lots) {
      Json of_lot{{"lot", lot}};
      of_lot.update(population_json(population, lot, comparisons));
      entry["lots"].push_back(std::move(of_lot));
    }
    json["kinds"].push_back(std::move(entry));
  }
  return json.dump(1) + '\n';
}

Summary summary_of(const ValueNode& root, const std::string& file) {
  refuse_if_any(file, batch_summary_schema().problems(root));
  Summary summary;
  summary.refused = count_of(root, "refused");
  summary.cut_short = count_of(root, "cut_short");
  for (const ValueNode& entry : list_of(root, "kinds")) {
    KindSummary kind{population_of(entry), {}};
    for (const ValueNode& lot : list_of(entry, "lots")) kind.lots[text_of(lot, "lot")].add(population_of(lot));
    summary.kinds[text_of(entry, "kind")].add(kind);
  }
  return summary;
}

PartSummary read_summary(const std::string& path) {
  DocumentLimits limits;  // a summary grows with the number of lots, and we wrote it
  limits.bytes = std::size_t{1} << 30U;
  limits.values = std::numeric_limits<std::size_t>::max();
  const Document document = read_document(path, limits);
  Summary summary = summary_of(document.root, document.file);
  const ValueNode* run = document.root.find("run");
  if (run == nullptr)
    throw InputError(ohmwright::quoted(path) + " does not say of which run and which shards it is; judge them again");
  return {std::move(summary), part_of(*run)};
}

}  // namespace ohmwright::batch
