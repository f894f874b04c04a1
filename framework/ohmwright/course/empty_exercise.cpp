#include <algorithm>
#include <string>

#include <ohmwright/course/drawn_looks.hpp>
#include <ohmwright/course/lesson.hpp>
#include <ohmwright/course/reader_words.hpp>
#include <ohmwright/locate/site.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_report.hpp>
#include <ohmwright/report/locate_words.hpp>

namespace ohmwright::course {

namespace {

void add_answers(const Bench& bench, const locate::FaultList& faults, const Sentences& say, Exercise& exercise) {
  for (std::size_t i = 0; i < bench.appliance.parts.size(); ++i) {
    const PlacedPart& placed = bench.appliance.parts[i];
    AnswerPart part{placed.id, placed.title, placed.plate, {}};
    for (std::size_t fault = 0; fault < faults.faults().size(); ++fault)
      if (faults.faults()[fault].fault.part == i)
        part.faults.emplace_back(std::string(faults.mode(fault).id), fault_title(faults, fault, say));
    if (!part.faults.empty()) exercise.parts.push_back(std::move(part));
  }
}

/// "evaporator coil (Defrost heater; Defrost sensor)"; of the table, on which one part lies, its title alone.
std::string zone_in_words(const Bench& bench, std::size_t zone) {
  const Appliance& appliance = bench.appliance;
  std::string parts;
  for (const PlacedPart& part : appliance.parts)
    if (part.zone == zone && !bench.on_the_table) parts += (parts.empty() ? "" : "; ") + part.title;
  return parts.empty() ? appliance.zones[zone].title : appliance.zones[zone].title + " (" + parts + ")";
}

/// The middle of what a set-up or the appliance's file leaves open, with its ±: where it was drawn in between, a
/// thermometer does not tell, and it says nothing of the fault. On the table every set-up has its own, also where it
/// is that of the table.
void add_temperatures(const Bench& bench, const Sentences& say, Exercise& exercise) {
  const Appliance& appliance = bench.appliance;
  const locate::Site found = locate::site_as_found(appliance);
  const auto temperature = [&](const locate::Site& site, std::size_t zone) {
    return say.stated(site.zone_temperatures[zone]);
  };
  for (std::size_t zone = 0; zone < appliance.zones.size(); ++zone)
    exercise.as_found.push_back({zone_in_words(bench, zone), temperature(found, zone)});
  for (std::size_t set_up = 0; set_up < appliance.set_ups.size(); ++set_up) {
    const locate::Site site = locate::after_set_up(appliance, found, set_up);
    std::vector<ZoneShown>& after = exercise.after_set_up.emplace_back();
    for (std::size_t zone = 0; zone < appliance.zones.size(); ++zone)
      if (bench.on_the_table || !(site.zone_temperatures[zone] == found.zone_temperatures[zone]))
        after.push_back({appliance.zones[zone].title, temperature(site, zone)});
  }
}

void add_cautions(const Bench& bench, const Sentences& say, Exercise& exercise) {
  const Appliance& appliance = bench.appliance;
  const auto add = [&](const std::string& id) {
    const auto same = [&](const auto& row) { return row.first == id; };
    if (std::none_of(exercise.cautions.begin(), exercise.cautions.end(), same))
      exercise.cautions.emplace_back(id, caution_words(appliance, id, false, say));
  };
  for (const std::string& id : locate::cautions_of_arrival(appliance)) add(id);
  add("capacitor-charge");
  add("live-measurement");
  for (const Cover& cover : appliance.covers)
    for (const std::string& id : cover.cautions) add(id);
  for (const SetUp& set_up : appliance.set_ups)
    for (const std::string& id : set_up.cautions) add(id);
  for (const TestPoint& point : appliance.test_points)
    for (const std::string& id : point.cautions) add(id);
  if (bench.on_the_table) add("water-and-mains");  // of the baths: once, as nothing there is plugged in
}

}  // namespace

Exercise empty_exercise(const Bench& bench, const locate::FaultList& faults, const Meter& meter) {
  const Sentences say{UnitPreferences{}};
  const Appliance& appliance = bench.appliance;
  Exercise exercise;
  exercise.meter = meter;
  exercise.title = appliance.title;
  exercise.on_the_table = bench.on_the_table;
  if (bench.on_the_table) exercise.complaint = sentence_of_the_table(say);
  exercise.places.covers = appliance.covers;
  exercise.places.set_ups = appliance.set_ups;
  for (SetUp& set_up : exercise.places.set_ups) {  // what they do to zones and parts is the bench's business
    set_up.states.clear();
    set_up.temperatures.clear();
  }
  add_temperatures(bench, say, exercise);
  for (std::size_t i = 0; i < bench.test_points; ++i) {
    TestPoint point = appliance.test_points[i];
    exercise.lifts_leads.push_back(!point.lifted.empty());
    point.lifted.clear();
    exercise.places.test_points.push_back(std::move(point));
  }
  add_answers(bench, faults, say, exercise);
  for (const std::string& symptom : bench.on_the_table ? std::vector<std::string>() : symptoms_to_look_at(appliance))
    exercise.looks.push_back({symptom, symptom_text(appliance, symptom, say), false});
  add_cautions(bench, say, exercise);
  const std::vector<Combination> all = combinations(bench);
  exercise.repeats = repeats_of(all.size());
  for (const Combination& combination : all) {
    const std::optional<std::size_t>& set_up = combination.measurement.set_up;
    exercise.readings.push_back({{set_up ? appliance.set_ups[*set_up].id : std::string(),
                                  appliance.test_points[combination.test_point].id, combination.leads_in},
                                 std::vector<std::optional<double>>(exercise.repeats)});
  }
  return exercise;
}

}  // namespace ohmwright::course
