#include "course/kind.hpp"

#include <algorithm>

#include <nlohmann/json.hpp>

#include <ohmwright/document/named_file.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/quoted.hpp>

#include "course/files.hpp"
#include "kind_files.hpp"

namespace ohmwright::cli {

namespace {

/// A wire from each terminal to a node of its own, and one place to probe.
std::string table_text(const LoadedKind& kind, const std::string& ratings) {
  const Descriptor& descriptor = kind.descriptor();
  const std::vector<std::string_view>& terminals = descriptor.terminals;
  if (terminals.size() < 2)
    throw InputError("a part of the kind " + std::string(descriptor.id) +
                     " has no two terminals to measure between; take an appliance, or another kind");
  nlohmann::ordered_json part{{"id", "part"},
                              {"title", descriptor.title},
                              {"kind", descriptor.id},
                              {"zone", "table"},
                              {"connections", nlohmann::ordered_json::object()}};
  if (!ratings.empty()) part["ratings"] = ratings;
  for (const std::string_view terminal : terminals) part["connections"][std::string(terminal)] = std::string(terminal);
  const std::string first = "part." + std::string(terminals[0]);
  const std::string second = "part." + std::string(terminals[1]);
  const nlohmann::ordered_json json{
      {"appliance", std::string(descriptor.id) + "-on-the-table"},
      {"title", descriptor.title},
      {"market", "other"},
      {"refrigerant", "none"},
      {"source", "made by course make"},
      {"supply",
       {{"voltage", "120 V +- 6 V"}, {"frequency", "60 Hz"}, {"live", terminals[0]}, {"neutral", terminals[1]}}},
      {"zones", {{{"id", "table"}, {"title", "the table"}, {"temperature", "21 degC +- 1 K"}}}},
      {"parts", {part}},
      {"test_points",
       {{{"id", "alone"},
         {"title", "across it"},
         {"measure", "ohms"},
         {"from", first},
         {"to", second},
         {"minutes", "1 min"}}}}};
  return json.dump(1);
}

}  // namespace

bool names_a_kind(const Environment& environment, const std::string& name) {
  for (const FoundPlugin& plugin : environment.registry.plugins())
    for (const StampedKind& kind : plugin.kinds)
      if (kind.id == name || std::find(kind.aliases.begin(), kind.aliases.end(), name) != kind.aliases.end())
        return true;
  return false;
}

std::string advice_on_ratings(const LoadedKind& kind, const std::string& ratings) {
  const std::vector<std::string> names = names_in_folder(kind.ratings_folder().string());
  if (!ratings.empty() || names.empty()) return {};
  return "name --ratings; there are: " + listed(names);
}

std::string appliance_text_for(const Environment& environment, const std::string& name, const std::string& ratings) {
  if (is_path(name)) return text_of_file(name);
  if (names_a_kind(environment, name)) return table_text(open_kind(environment, name), ratings);
  return text_of_file(named_file(environment.locations.appliances.string(), name, "appliance"));
}

}  // namespace ohmwright::cli
