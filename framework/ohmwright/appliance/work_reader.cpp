#include <cmath>

#include <ohmwright/appliance/name_finder.hpp>
#include <ohmwright/appliance/places_reader.hpp>
#include <ohmwright/quantity/article.hpp>

namespace ohmwright {

namespace {

std::vector<std::string> texts_of(const ValueNode& object, std::string_view field) {
  std::vector<std::string> texts;
  for (const ValueNode& entry : list_of(object, field))
    if (entry.text() != nullptr) texts.push_back(*entry.text());
  return texts;
}

/// A node that some part is at, or a part's own terminal.
std::optional<ProbePlace> place_named(const ValueNode* node, const Appliance& appliance,
                                      std::vector<Problem>& problems) {
  if (node == nullptr || node->text() == nullptr) return std::nullopt;
  ProbePlace place;
  if (node->text()->find('.') != std::string::npos) {
    place.terminal = terminal_named(*node, appliance, problems);
    return place.terminal ? std::optional(place) : std::nullopt;
  }
  const auto found = std::find(appliance.nodes.begin(), appliance.nodes.end(), *node->text());
  if (found == appliance.nodes.end()) {
    problems.push_back(node->problem("no part is at a node " + ohmwright::quoted(*node->text()) +
                                     suggestion(*node->text(), appliance.nodes)));
    return std::nullopt;
  }
  place.node = static_cast<std::size_t>(found - appliance.nodes.begin());
  return place;
}

class TestPointReader {
 public:
  TestPointReader(const ValueNode& entry, const Appliance& appliance, std::vector<Problem>& problems)
      : entry_(entry), appliance_(appliance), problems_(problems) {}

  std::optional<TestPoint> read() {
    TestPoint point;
    point.id = text_of(entry_, "id");
    point.title = text_of(entry_, "title");
    const std::string measure = text_of(entry_, "measure");
    point.probe = measure == "volts" ? Probe::volts : measure == "amperes" ? Probe::amperes : Probe::ohms;
    point.behind = find_all_named(entry_, "behind", "cover", appliance_.covers, problems_);
    point.minutes = minutes_in(entry_, "minutes", point.minutes, problems_);
    point.cautions = texts_of(entry_, "cautions");
    for (const ValueNode& lead : list_of(entry_, "lifted"))
      if (const auto terminal = terminal_named(lead, appliance_, problems_)) point.lifted.push_back(*terminal);
    return find_places(point) ? std::optional(std::move(point)) : std::nullopt;
  }

 private:
  bool find_places(TestPoint& point) {
    const ValueNode* around = entry_.find("around");
    const bool clamp = point.probe == Probe::amperes;
    if (clamp != (around != nullptr) || clamp == (entry_.find("from") != nullptr && entry_.find("to") != nullptr)) {
      problems_.push_back(entry_.problem(clamp
                                             ? "amperes are read \"around\" a part's lead, without \"from\" and \"to\""
                                             : "ohms and volts are read \"from\" a place \"to\" another"));
      return false;
    }
    if (clamp) {
      point.from.terminal = terminal_named(*around, appliance_, problems_);
      return check_lead(point.from.terminal, *around);
    }
    const auto from = place_named(entry_.find("from"), appliance_, problems_);
    const auto to = place_named(entry_.find("to"), appliance_, problems_);
    if (!from || !to) return false;
    point.from = *from;
    point.to = *to;
    return true;
  }

  bool check_lead(const std::optional<PartTerminal>& terminal, const ValueNode& around) {
    if (!terminal) return false;
    if (appliance_.parts[terminal->part].nodes[terminal->terminal]) return true;
    problems_.push_back(around.problem("no wire is at that terminal to put a clamp around"));
    return false;
  }

  const ValueNode& entry_;
  const Appliance& appliance_;
  std::vector<Problem>& problems_;
};

/// A zone that takes the temperature of another: {"as_warm_as": "room", "within": "2 K"}.
std::optional<SetTemperature> as_warm_as(const std::optional<std::size_t>& zone, const ValueNode& other,
                                         const ValueNode& row, const Appliance& appliance,
                                         std::vector<Problem>& problems) {
  const auto like = find_named(&other, "zone", appliance.zones, problems);
  const auto within = quantity_of(row.find("within"), Dimension::temperature_difference, problems);
  const double within_kelvin = within ? within->value.value_in_si() : 0.0;
  if (within_kelvin < 0.0) problems.push_back(row.find("within")->problem("a zone differs by 0 K or more"));
  if (!zone || !like) return std::nullopt;
  if (*zone == *like) {
    problems.push_back(
        other.problem("a zone is as warm as another, and " + ohmwright::quoted(*other.text()) + " is the zone itself"));
    return std::nullopt;
  }
  StatedValue temperature = appliance.zones[*like].temperature;
  temperature.half_width = std::hypot(temperature.half_width.value_or(0.0), within_kelvin);
  return SetTemperature{*zone, temperature, like, within_kelvin};
}

SetUp read_set_up(const ValueNode& entry, const Appliance& appliance, std::vector<Problem>& problems) {
  SetUp set_up;
  set_up.id = text_of(entry, "id");
  set_up.title = text_of(entry, "title");
  set_up.minutes = minutes_in(entry, "minutes", 5.0, problems);
  set_up.live = flag_of(entry, "live");
  set_up.steps = texts_of(entry, "steps");
  set_up.confirmed_by = text_of(entry, "confirmed_by");
  set_up.way_out = text_of(entry, "way_out");
  set_up.source = text_of(entry, "source");
  set_up.behind = find_all_named(entry, "behind", "cover", appliance.covers, problems);
  set_up.cautions = texts_of(entry, "cautions");
  set_up.states = set_states_in(entry, appliance, problems);
  set_up.temperatures = set_temperatures_in(entry, appliance, problems);
  return set_up;
}

}  // namespace

std::optional<PartTerminal> terminal_named(const ValueNode& node, const Appliance& appliance,
                                           std::vector<Problem>& problems) {
  if (node.text() == nullptr) return std::nullopt;
  const auto [part, terminal] = split_at_dot(*node.text());
  const ValueNode named(part, node.pointer(), node.line());
  const auto index = find_named(&named, "part", appliance.parts, problems);
  if (!index) return std::nullopt;
  const Descriptor& descriptor = appliance.parts[*index].kind->descriptor();
  const auto found = std::find(descriptor.terminals.begin(), descriptor.terminals.end(), terminal);
  if (found != descriptor.terminals.end())
    return PartTerminal{*index, static_cast<std::uint16_t>(found - descriptor.terminals.begin())};
  const std::vector<std::string> known(descriptor.terminals.begin(), descriptor.terminals.end());
  problems.push_back(node.problem(with_article(descriptor.id) + " has no terminal " + ohmwright::quoted(terminal) +
                                  suggestion(terminal, known)));
  return std::nullopt;
}

std::vector<SetState> set_states_in(const ValueNode& entry, const Appliance& appliance,
                                    std::vector<Problem>& problems) {
  std::vector<SetState> set;
  const ValueNode* states = entry.find("states");
  if (states == nullptr || states->members() == nullptr) return set;
  for (const auto& [name, value] : *states->members()) {
    const auto [part, state] = split_at_dot(name);
    const ValueNode named(part, value.pointer(), value.line());
    const auto index = find_named(&named, "part", appliance.parts, problems);
    if (!index) continue;
    if (const auto stated = state_named(state, value, appliance.parts[*index], problems))
      set.push_back({*index, *stated});
  }
  return set;
}

std::vector<SetTemperature> set_temperatures_in(const ValueNode& entry, const Appliance& appliance,
                                                std::vector<Problem>& problems) {
  std::vector<SetTemperature> set;
  const ValueNode* temperatures = entry.find("temperatures");
  if (temperatures == nullptr || temperatures->members() == nullptr) return set;
  for (const auto& [name, value] : *temperatures->members()) {
    const ValueNode named(name, value.pointer(), value.line());
    const auto zone = find_named(&named, "zone", appliance.zones, problems);
    if (const ValueNode* other = value.find("as_warm_as")) {
      if (const auto row = as_warm_as(zone, *other, value, appliance, problems)) set.push_back(*row);
      continue;
    }
    const auto stated = value.members() != nullptr ? written_in_si(value, Dimension::temperature, problems)
                                                   : quantity_of(&value, Dimension::temperature, problems);
    if (zone && stated) set.push_back({*zone, *stated});
  }
  return set;
}

std::optional<StatedValue> written_in_si(const ValueNode& object, Dimension dimension, std::vector<Problem>& problems) {
  const std::optional<double> value = number_of(object, "value");
  const std::string unit = text_of(object, "unit");
  if (value && dimension == Dimension::temperature && !(*value > 0.0)) {
    problems.push_back(object.problem("a temperature lies above 0 K"));
    return std::nullopt;
  }
  if (value && unit == si_unit_of(dimension))
    return StatedValue{AnyQuantity(dimension, *value), number_of(object, "half_width"), Unit::si(dimension)};
  problems.push_back(object.problem("expected a value in " + ohmwright::quoted(std::string(si_unit_of(dimension))) +
                                    (unit.empty() ? std::string() : ", got " + ohmwright::quoted(unit))));
  return std::nullopt;
}

void read_work(const ValueNode& root, Appliance& appliance, std::vector<Problem>& problems) {
  for (const ValueNode& entry : list_of(root, "test_points"))
    if (auto point = TestPointReader(entry, appliance, problems).read()) appliance.test_points.push_back(*point);
  for (const ValueNode& entry : list_of(root, "set_ups"))
    appliance.set_ups.push_back(read_set_up(entry, appliance, problems));
  refuse_twins(root, "test_points", appliance.test_points, problems);
  refuse_twins(root, "set_ups", appliance.set_ups, problems);
}

}  // namespace ohmwright
