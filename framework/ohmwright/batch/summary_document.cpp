#include <limits>

#include <nlohmann/json.hpp>

#include <ohmwright/batch/summary_document.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/quantity/error.hpp>

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

/// `all` is the population that the lot is compared with, or null.
Json population_json(const Population& population, const Population* all) {
  Json json{{"verdicts", outcomes_json(population.verdicts)}, {"rules", Json::array()}};
  for (const auto& [name, rule] : population.rules) {
    Json entry{{"rule", name}, {"outcomes", outcomes_json(rule.outcomes)}};
    if (rule.places.count > 0) entry["places"] = places_json(rule.places);
    const auto drift = all == nullptr ? std::nullopt : drift_of(rule.places, all->rules.find(name)->second.places);
    if (drift)
      entry["drift"] = {
          {"difference", drift->difference}, {"standard_error", drift->standard_error}, {"is_drift", drift->is_drift}};
    json["rules"].push_back(std::move(entry));
  }
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

Population population_of(const ValueNode& node) {
  Population population{outcomes_of(node.find("verdicts")), {}};
  for (const ValueNode& entry : list_of(node, "rules"))
    population.rules[text_of(entry, "rule")].add(
        {outcomes_of(entry.find("outcomes")), places_of(entry.find("places"))});
  return population;
}

}  // namespace

std::string summary_json(const Summary& summary) {
  Json json{{"judged", summary.judged()}, {"refused", summary.refused}, {"kinds", Json::array()}};
  for (const auto& [name, kind] : summary.kinds) {
    Json entry{{"kind", name}};
    entry.update(population_json(kind.all, nullptr));
    entry["lots"] = Json::array();
    for (const auto& [lot, population] : kind.lots) {
      Json of_lot{{"lot", lot}};
      of_lot.update(population_json(population, &kind.all));
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
  for (const ValueNode& entry : list_of(root, "kinds")) {
    KindSummary kind{population_of(entry), {}};
    for (const ValueNode& lot : list_of(entry, "lots")) kind.lots[text_of(lot, "lot")].add(population_of(lot));
    summary.kinds[text_of(entry, "kind")].add(kind);
  }
  return summary;
}

Summary read_summary(const std::string& path) {
  DocumentLimits limits;  // a summary grows with the number of lots, and we wrote it
  limits.bytes = std::size_t{1} << 30U;
  limits.values = std::numeric_limits<std::size_t>::max();
  const Document document = read_document(path, limits);
  return summary_of(document.root, document.file);
}

}  // namespace ohmwright::batch
