#include <ohmwright/appliance/name_finder.hpp>
#include <ohmwright/appliance/places_reader.hpp>

namespace ohmwright {

namespace {

void read_supply(const ValueNode& root, Appliance& appliance, std::vector<Problem>& problems) {
  const ValueNode* supply = root.find("supply");
  if (supply == nullptr || supply->members() == nullptr) return;
  if (const auto volts = quantity_of(supply->find("voltage"), Dimension::voltage, problems)) {
    if (volts->value.value_in_si() > 0.0)
      appliance.supply.voltage = *volts;
    else
      problems.push_back(supply->find("voltage")->problem("the supply's voltage must be above 0"));
  }
  if (const auto hertz = quantity_of(supply->find("frequency"), Dimension::frequency, problems))
    appliance.supply.frequency = *hertz;
  appliance.supply.live = node_named(appliance, text_of(*supply, "live"));
  appliance.supply.neutral = node_named(appliance, text_of(*supply, "neutral"));
  if (appliance.supply.live == appliance.supply.neutral)
    problems.push_back(supply->problem("live and neutral are one node"));
  appliance.supply.is_assumed = flag_of(*supply, "assumed");
  if (supply->find("earth") != nullptr) appliance.supply.earth = node_named(appliance, text_of(*supply, "earth"));
}

void read_zones(const ValueNode& root, Appliance& appliance, std::vector<Problem>& problems) {
  for (const ValueNode& entry : list_of(root, "zones")) {
    const auto temperature = quantity_of(entry.find("temperature"), Dimension::temperature, problems);
    appliance.zones.push_back({text_of(entry, "id"), text_of(entry, "title"),
                               temperature.value_or(parse_stated_value("20 degC", Dimension::temperature))});
  }
  refuse_twins(root, "zones", appliance.zones, problems);
}

void read_covers(const ValueNode& root, Appliance& appliance, std::vector<Problem>& problems) {
  const ValueNode::Array& entries = list_of(root, "covers");
  for (const ValueNode& entry : entries) {
    Cover& cover = appliance.covers.emplace_back();
    cover.id = text_of(entry, "id");
    cover.title = text_of(entry, "title");
    cover.minutes = minutes_in(entry, "minutes", 1.0, problems);
    for (const ValueNode& caution : list_of(entry, "cautions"))
      if (caution.text() != nullptr) cover.cautions.push_back(*caution.text());
  }
  for (std::size_t i = 0; i < entries.size(); ++i) {
    appliance.covers[i].behind = find_all_named(entries[i], "behind", "cover", appliance.covers, problems);
    for (const std::size_t before : appliance.covers[i].behind)
      if (before >= i)  // in this order no cover can be behind itself
        problems.push_back(entries[i].problem("the cover " + ohmwright::quoted(appliance.covers[i].id) +
                                              " is behind one that stands after it; write those that come off first "
                                              "before it"));
  }
  refuse_twins(root, "covers", appliance.covers, problems);
}

}  // namespace

std::size_t node_named(Appliance& appliance, const std::string& name) {
  const auto found = std::find(appliance.nodes.begin(), appliance.nodes.end(), name);
  if (found != appliance.nodes.end()) return static_cast<std::size_t>(found - appliance.nodes.begin());
  appliance.nodes.push_back(name);
  return appliance.nodes.size() - 1;
}

double minutes_in(const ValueNode& object, std::string_view field, double fallback, std::vector<Problem>& problems) {
  constexpr double seconds_of_minute = 60.0;
  const ValueNode* node = object.find(field);
  const auto stated = quantity_of(node, Dimension::duration, problems);
  if (!stated) return fallback;
  if (!(stated->value.value_in_si() < 0.0)) return stated->value.value_in_si() / seconds_of_minute;
  problems.push_back(node->problem("a time cannot be below 0"));
  return fallback;
}

void read_places(const ValueNode& root, Appliance& appliance, std::vector<Problem>& problems) {
  read_supply(root, appliance, problems);
  read_zones(root, appliance, problems);
  read_covers(root, appliance, problems);
}

}  // namespace ohmwright
