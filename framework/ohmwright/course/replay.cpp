#include <algorithm>
#include <set>

#include <ohmwright/course/meter_display.hpp>
#include <ohmwright/course/practice.hpp>
#include <ohmwright/course/replay.hpp>
#include <ohmwright/locate/scale.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::course {

namespace {

template <class Row>
std::optional<std::size_t> place_named(const std::vector<Row>& rows, const std::string& id) {
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (rows[i].id == id) return i;
  return std::nullopt;
}

}  // namespace

Replay replay_of(const Exercise& exercise, const Record& record) {
  Replay replay;
  Practice practice(exercise);
  std::set<std::string> lasting;
  for (std::size_t i = 0; i < record.entries.size(); ++i) {
    const Entry& entry = record.entries[i];
    try {
      const Entry done = practice.perform(entry);
      if (!(done == entry) && !replay.differs_at) replay.differs_at = i;
      if (done.action == "unplug" || done.action == "plug-in" || done.action == "prove-dead") lasting.clear();
      for (const std::string& hazard : done.hazards)
        if (lasting.insert(hazard).second) replay.hazards.push_back(hazard);
      replay.has_measured = replay.has_measured || done.action == "measure";
    } catch (const InputError&) {  // no bench would have done that
      if (!replay.differs_at) replay.differs_at = i;
    }
    if (entry.action == "answer") replay.answer = &entry;
  }
  replay.minutes = practice.minutes();
  return replay;
}

void add_told(const Bench& bench, const Exercise& exercise, const Entry& entry, bool live, Told& told) {
  if (entry.action == "look") {
    told.looks.symptoms.push_back({entry.subject, entry.shown == "yes"});
    return;
  }
  if (entry.action != "measure" || entry.shown.empty()) return;
  const std::optional<std::size_t> point = place_named(bench.appliance.test_points, entry.subject);
  if (!point || *point >= bench.test_points) return;
  const Probe probe = bench.appliance.test_points[*point].probe;
  if (probe != Probe::ohms && !live) return;
  const std::vector<std::string> ranges = range_names(exercise.meter, locate::dimension_of(probe));
  const bool reaches_far = entry.range == "auto" || (!ranges.empty() && entry.range == ranges.back());
  if (entry.shown == "OL" && !reaches_far) return;
  const bool leads_in = entry.leads == "in" && bench.left_in[*point];
  locate::Measurement measurement{leads_in ? *bench.left_in[*point] : *point, {}};
  if (!entry.set_up.empty()) measurement.set_up = place_named(bench.appliance.set_ups, entry.set_up);
  try {
    told.readings.push_back({measurement, parse_observed(entry.shown, locate::dimension_of(probe)), entry.subject});
  } catch (const InputError&) {  // no meter shows that: the record was edited, which is told of elsewhere
  }
}

std::vector<bool> plugged_in(const Exercise& exercise, const Record& record) {
  std::vector<bool> live;
  bool now = !exercise.on_the_table;
  for (const Entry& entry : record.entries) {
    if (entry.action == "unplug") now = false;
    if (entry.action == "plug-in") now = true;
    live.push_back(now);
  }
  return live;
}

}  // namespace ohmwright::course
