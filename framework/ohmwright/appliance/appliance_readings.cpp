#include <algorithm>

#include <ohmwright/appliance/appliance_readings.hpp>
#include <ohmwright/appliance/name_finder.hpp>
#include <ohmwright/appliance/places_reader.hpp>
#include <ohmwright/component/role.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/schema.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

Dimension dimension_read(Probe probe) {
  switch (probe) {
    case Probe::volts:
      return Dimension::voltage;
    case Probe::amperes:
      return Dimension::current;
    case Probe::ohms:
      break;
  }
  return Dimension::resistance;
}

/// What locate wrote of a reading.
std::optional<Observed> written_observed(const ValueNode& observed, Dimension dimension,
                                         std::vector<Problem>& problems) {
  const std::string state = text_of(observed, "state");
  if (state == "over-range") return OverRange{};
  if (!state.empty()) return state == "open" ? ContactState::open : ContactState::closed;
  const auto stated = written_in_si(observed, dimension, problems);
  return stated ? std::optional<Observed>(*stated) : std::nullopt;
}

/// What people wrote: numbers with their unit, OL, and for ohms the words of a continuity buzzer.
std::optional<Observed> typed_observed(const ValueNode* value, Dimension dimension, std::vector<Problem>& problems) {
  ObservedOptions options;
  options.over_range = options.contact_words = options.names_range_end = dimension == Dimension::resistance;
  return observed_of(value, dimension, options, problems);
}

std::optional<StatedReading> stated_reading(const ValueNode& entry, const Appliance& appliance,
                                            std::vector<Problem>& problems) {
  StatedReading reading;
  reading.set_up = find_named(entry.find("set_up"), "set-up", appliance.set_ups, problems);
  reading.states = set_states_in(entry, appliance, problems);
  reading.temperatures = set_temperatures_in(entry, appliance, problems);
  reading.note = text_of(entry, "note");
  reading.low_impedance = flag_of(entry, "low_impedance");
  const auto point = find_named(entry.find("test_point"), "test point", appliance.test_points, problems);
  if (!point) return std::nullopt;
  reading.test_point = *point;
  const Dimension dimension = dimension_read(appliance.test_points[*point].probe);
  const ValueNode* written = entry.find("observed");
  const auto observed = written != nullptr ? written_observed(*written, dimension, problems)
                                           : typed_observed(entry.find("value"), dimension, problems);
  if (const ValueNode* range = entry.find("range"))
    if (const auto stated = range->text() == nullptr ? written_in_si(*range, dimension, problems)
                                                     : quantity_of(range, dimension, problems))
      reading.range = stated->value;
  if (!observed) return std::nullopt;
  reading.observed = *observed;
  return reading;
}

bool are_stated_by(const SetUp& set_up, const StatedReading& reading) {
  const auto same_state = [](const SetState& a, const SetState& b) {
    return a.part == b.part && a.value.state == b.value.state && a.value.value == b.value.value;
  };
  const auto same_temperature = [](const SetTemperature& a, const SetTemperature& b) {
    return a.zone == b.zone && a.temperature == b.temperature && a.not_measured == b.not_measured;
  };
  return set_up.only_stated && set_up.based_on == reading.set_up &&
         std::equal(set_up.states.begin(), set_up.states.end(), reading.states.begin(), reading.states.end(),
                    same_state) &&
         std::equal(set_up.temperatures.begin(), set_up.temperatures.end(), reading.temperatures.begin(),
                    reading.temperatures.end(), same_temperature);
}

}  // namespace

std::vector<StatedReading> read_appliance_readings(const Document& document, const Appliance& appliance) {
  const ValueNode& root = document.root;
  const bool is_of_locate = root.find("standing") != nullptr;
  std::vector<Problem> problems = (is_of_locate ? locate_schema() : appliance_readings_schema()).problems(document);
  const ValueNode* of = root.find("appliance");
  if (of != nullptr && of->text() != nullptr && *of->text() != appliance.id)
    problems.push_back(of->problem("these readings are of the appliance " + ohmwright::quoted(*of->text()) + ", not " +
                                   ohmwright::quoted(appliance.id) + "; name that one, or leave \"appliance\" out"));
  std::vector<StatedReading> readings;
  for (const ValueNode& entry : list_of(root, "readings")) {
    std::optional<StatedReading> reading = stated_reading(entry, appliance, problems);
    if (!reading) continue;
    reading->label = appliance.test_points[reading->test_point].id + " in " + document.file + ", line " +
                     std::to_string(entry.line());
    readings.push_back(*std::move(reading));
  }
  refuse_if_any(document.file, std::move(problems));
  return readings;
}

std::optional<std::size_t> circumstances_of(const StatedReading& reading, Appliance& appliance) {
  if (reading.states.empty() && reading.temperatures.empty()) return reading.set_up;
  std::vector<SetUp>& set_ups = appliance.set_ups;
  const auto same =
      std::find_if(set_ups.begin(), set_ups.end(), [&](const SetUp& set_up) { return are_stated_by(set_up, reading); });
  if (same != set_ups.end()) return static_cast<std::size_t>(same - set_ups.begin());
  SetUp stated;
  if (reading.set_up) stated = set_ups[*reading.set_up];  // its minutes, covers and whether it is live
  stated.only_stated = true;
  stated.based_on = reading.set_up;
  stated.states = reading.states;
  stated.temperatures = reading.temperatures;
  set_ups.push_back(std::move(stated));
  return set_ups.size() - 1;
}

void add_cooling(Appliance& appliance) {
  constexpr std::string_view id = "cooled";
  constexpr double half_an_hour = 30.0;  // minutes; takes most of what a winding gained (common practice, no source)
  const bool has_it = std::any_of(appliance.set_ups.begin(), appliance.set_ups.end(),
                                  [&](const SetUp& set_up) { return set_up.id == id; });
  const bool warms = std::any_of(appliance.parts.begin(), appliance.parts.end(), [](const PlacedPart& part) {
    return plays(part.kind->descriptor().roles, role::warms_by_running);
  });
  if (has_it || !warms) return;
  SetUp cooled;
  cooled.id = id;
  cooled.title = "unplugged for half an hour";
  cooled.minutes = half_an_hour;
  cooled.cools_down = true;
  appliance.set_ups.push_back(std::move(cooled));
}

}  // namespace ohmwright
