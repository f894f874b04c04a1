#include <algorithm>
#include <string_view>
#include <utility>

#include <ohmwright/appliance/conduction.hpp>
#include <ohmwright/course/bench.hpp>
#include <ohmwright/locate/part_model.hpp>
#include <ohmwright/locate/work.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

namespace {

/// The identifier of a mode that is of how a part is mounted, not of the part: on a bench that is a good one.
constexpr std::string_view of_its_place_mode = "misplaced";

/// What a state is called that says from where a part came to be as warm as it is, and its value for one that came from
/// warmer (as plugins agree with `log` and `chart`).
constexpr std::string_view history_state = "history";
constexpr std::string_view came_from_warmer = "cooling";

/// What nobody does to a part: nothing is said of it.
constexpr std::string_view unsaid_value = "unknown";

SetUp table_set_up(std::string id, std::string title, double minutes, const std::string& temperature,
                   std::string step) {
  SetUp set_up;
  set_up.id = std::move(id);
  set_up.title = std::move(title);
  set_up.minutes = minutes;
  set_up.temperatures.push_back({0, parse_stated_value(temperature, Dimension::temperature)});
  set_up.steps.push_back(std::move(step));
  set_up.source = "common practice, no source";
  return set_up;
}

/// By terminal, whether anything is wired to it in a part of these ratings, good or faulty: a kind has the terminals of
/// all its parts.
std::vector<bool> wired_terminals(const Appliance& table) {
  const Descriptor& descriptor = table.parts.front().kind->descriptor();
  const locate::Site site = locate::site_as_found(table);
  std::vector<bool> wired(descriptor.terminals.size());
  const auto note = [&](std::uint16_t fault) {
    for (const locate::ElementSpread& element : locate::part_model(table, 0, fault, site, Excitation::ohmmeter))
      for (const std::uint16_t terminal : {element.from, element.to})
        if (terminal < wired.size()) wired[terminal] = true;
  };
  note(not_found);
  for (std::uint16_t fault = 0; fault < descriptor.fault_modes.size(); ++fault)
    if (conduction_of(table, 0, fault, {}, Excitation::ohmmeter).can_be) note(fault);
  return wired;
}

/// Every pair of terminals that the part has.
void add_table_points(const Appliance& table, const Sentences& say, std::vector<TestPoint>& points) {
  const PlacedPart& part = table.parts.front();
  const std::vector<std::string_view>& names = part.kind->descriptor().terminals;
  const std::vector<bool> wired = wired_terminals(table);
  for (std::size_t from = 0; from < names.size(); ++from)
    for (std::size_t to = from + 1; to < names.size(); ++to) {
      if (!wired[from] || !wired[to]) continue;
      TestPoint point;
      point.id = std::string(names[from]) + "-to-" + std::string(names[to]);
      point.title = say(OHMWRIGHT_TEXT("{part}: {from} to {to}"),
                        {{"part", part.title}, {"from", std::string(names[from])}, {"to", std::string(names[to])}});
      point.from.terminal = PartTerminal{0, static_cast<std::uint16_t>(from)};
      point.to.terminal = PartTerminal{0, static_cast<std::uint16_t>(to)};
      points.push_back(std::move(point));
    }
}

/// Whether the kind says something else of the part after the set-up than as found, good or with any of its faults.
bool changes_anything(const Appliance& table, std::size_t set_up) {
  const auto changes = [&](std::uint16_t fault) {
    const auto at = [&](std::optional<std::size_t> where) {
      return conduction_of(table, 0, fault, where, Excitation::ohmmeter);
    };
    return !changed_points(at({}), at(set_up)).empty();
  };
  const std::size_t faults = table.parts.front().kind->descriptor().fault_modes.size();
  bool does = changes(not_found);
  for (std::uint16_t fault = 0; fault < faults && !does; ++fault) does = changes(fault);
  return does;
}

/// What a hand does to the part and an ohmmeter finds changed: a plunger pressed, a cam turned. What is merely known of
/// it is no set-up, nor is what it went through before it lay there.
void add_state_set_ups(const Sentences& say, Appliance& table) {
  const Descriptor& descriptor = table.parts.front().kind->descriptor();
  for (std::size_t state = 0; state < descriptor.states.size(); ++state) {
    if (descriptor.states[state].id == history_state) continue;
    for (std::size_t value = 0; value < descriptor.states[state].values.size(); ++value) {
      const auto& row = descriptor.states[state].values[value];
      if (row.id == unsaid_value) continue;
      SetUp& set_up = table.set_ups.emplace_back();
      set_up.id = std::string(descriptor.states[state].id) + "-" + std::string(row.id);
      set_up.title = say.in_domain(descriptor.text_domain, descriptor.states[state].title) + ": " +
                     say.in_domain(descriptor.text_domain, row.english);
      set_up.minutes = 1.0;
      set_up.states.push_back({0, {static_cast<std::uint16_t>(state), static_cast<std::uint16_t>(value)}});
      if (!changes_anything(table, table.set_ups.size() - 1)) table.set_ups.pop_back();
    }
  }
}

/// Whether a good part of these ratings conducts the same on the table whatever it went through.
bool has_settled_on_the_table(const Appliance& table, std::uint16_t state) {
  Appliance with_histories = table;
  with_histories.set_ups.clear();
  std::vector<Conduction> all;
  const std::size_t values = table.parts.front().kind->descriptor().states[state].values.size();
  for (std::uint16_t value = 0; value < values; ++value) {
    with_histories.set_ups.emplace_back().states.push_back({0, {state, value}});
    all.push_back(conduction_of(with_histories, 0, not_found, value, Excitation::ohmmeter));
  }
  return std::all_of(all.begin(), all.end(),
                     [&](const Conduction& one) { return changed_points(all.front(), one).empty(); });
}

/// What goes into a colder bath from the table cooled down to it: a contact with hysteresis is as it came, where it is
/// known how it lay there.
void say_what_came_from_warmer(Appliance& table) {
  const std::vector<StateDescriptor>& states = table.parts.front().kind->descriptor().states;
  const std::uint16_t state = index_of(states, history_state);
  if (state == not_found) return;
  const std::uint16_t value = index_of(states[state].values, came_from_warmer);
  if (value == not_found || !has_settled_on_the_table(table, state)) return;
  const double on_the_table = table.zones.front().temperature.value.value_in_si();
  for (SetUp& set_up : table.set_ups)
    if (set_up.temperatures.front().temperature.value.value_in_si() < on_the_table)
      set_up.states.push_back({0, {state, value}});
}

}  // namespace

Bench bench_of(Appliance appliance) {
  Bench bench;
  bench.test_points = appliance.test_points.size();
  bench.left_in.resize(bench.test_points);
  for (std::size_t i = 0; i < bench.test_points; ++i) {
    if (appliance.test_points[i].lifted.empty()) continue;
    TestPoint in = appliance.test_points[i];
    in.id += "/in-circuit";
    in.lifted.clear();
    bench.left_in[i] = appliance.test_points.size();
    appliance.test_points.push_back(std::move(in));
  }
  bench.appliance = std::move(appliance);
  return bench;
}

Bench table_of(const Appliance& appliance, std::size_t part) {
  const Sentences say{UnitPreferences{}};
  Appliance table;
  PlacedPart alone = appliance.parts[part];
  alone.title = say.in_domain(alone.kind->descriptor().text_domain, alone.title);  // one that is called as its kind is
  table.id = appliance.id;
  table.title = say(OHMWRIGHT_TEXT("{part}, alone on the table"), {{"part", alone.title}});
  table.market = appliance.market;
  table.refrigerant = "none";
  table.supply = appliance.supply;
  table.supply.live = 0;
  table.supply.neutral = 1;
  table.supply.earth.reset();
  table.zones.push_back(
      {"table", say(OHMWRIGHT_TEXT("the table")), parse_stated_value("21 degC +- 1 K", Dimension::temperature)});
  const std::size_t terminals = alone.kind->descriptor().terminals.size();
  for (std::size_t i = 0; i < std::max<std::size_t>(2, terminals); ++i) table.nodes.push_back("n" + std::to_string(i));
  alone.nodes.clear();
  for (std::size_t i = 0; i < terminals; ++i) alone.nodes.emplace_back(i);
  alone.zone = 0;
  alone.behind.clear();
  alone.fault_weights.resize(alone.kind->descriptor().fault_modes.size(), 1.0);
  for (std::size_t mode = 0; mode < alone.fault_weights.size(); ++mode)
    if (alone.kind->descriptor().fault_modes[mode].id == of_its_place_mode) alone.fault_weights[mode] = 0.0;
  table.parts.push_back(std::move(alone));
  add_table_points(table, say, table.test_points);
  table.set_ups.push_back(
      table_set_up(ice_water, say(OHMWRIGHT_TEXT("in stirred ice water, in a bag, for ten minutes")), 12.0,
                   "0 degC +- 0.2 K", say(OHMWRIGHT_TEXT("Crushed ice and water, stirred; the part in a bag."))));
  table.set_ups.push_back(table_set_up(salted_ice, say(OHMWRIGHT_TEXT("in salted ice, in a bag, for ten minutes")),
                                       15.0, "-15 degC +- 2 K",
                                       say(OHMWRIGHT_TEXT("Crushed ice with a third of salt; the part in a bag."))));
  table.set_ups.push_back(table_set_up(warm_water, say(OHMWRIGHT_TEXT("in warm water, in a bag, for ten minutes")),
                                       12.0, "40 degC +- 1 K",
                                       say(OHMWRIGHT_TEXT("Warm water with a thermometer in it; the part in a bag."))));
  say_what_came_from_warmer(table);
  add_state_set_ups(say, table);
  Bench bench = bench_of(std::move(table));
  bench.on_the_table = true;
  return bench;
}

std::vector<Combination> combinations(const Bench& bench) {
  std::vector<Combination> all;
  const Appliance& appliance = bench.appliance;
  const auto add = [&](std::optional<std::size_t> set_up) {
    for (std::size_t point = 0; point < bench.test_points; ++point) {
      if (!locate::is_possible(appliance, {point, set_up})) continue;
      all.push_back({{point, set_up}, point, false});
      if (bench.left_in[point]) all.push_back({{*bench.left_in[point], set_up}, point, true});
    }
  };
  add(std::nullopt);
  for (std::size_t set_up = 0; set_up < appliance.set_ups.size(); ++set_up) add(set_up);
  if (all.size() > most_values)
    throw InputError("an exercise holds at most 5,000 readings, and this appliance has " + std::to_string(all.size()) +
                     " combinations of test point, leads and set-up; leave some test points or set-ups out");
  return all;
}

std::size_t repeats_of(std::size_t combination_count) {
  constexpr std::size_t usual = 3;
  return std::clamp<std::size_t>(most_values / std::max<std::size_t>(1, combination_count), 1, usual);
}

}  // namespace ohmwright::course
