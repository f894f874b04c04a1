#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <ohmwright/course/exercise.hpp>

namespace ohmwright::course {

namespace {

using Json = nlohmann::ordered_json;

/// A reading in twelve characters, whatever it is: no file is longer because something is open.
std::string cell(std::optional<double> value) {
  if (!value) return "          OL";
  return fmt::format("{:.6e}", *value);
}

Json names_of(const std::vector<std::size_t>& covers, const Appliance& places) {
  Json names = Json::array();
  for (const std::size_t cover : covers) names.push_back(places.covers[cover].id);
  return names;
}

Json meter_json(const Meter& meter) {
  Json json;
  json["title"] = meter.title;
  json["lead_resistance"] = meter.lead_resistance.value.value_in_si();
  json["sets_range_itself"] = meter.sets_range_itself;
  for (const auto& [name, dimension] :
       {std::pair{"ohms", Dimension::resistance}, {"volts", Dimension::voltage}, {"amperes", Dimension::current}}) {
    json[name] = Json::array();
    const MeterFunction* function = function_for(meter, dimension);
    if (function == nullptr) continue;
    for (const MeterRange& range : function->ranges)
      json[name].push_back(
          {{"full_scale", range.full_scale.value_in_si()}, {"resolution", range.resolution.value_in_si()}});
  }
  return json;
}

const char* probe_name(Probe probe) {
  return probe == Probe::ohms ? "ohms" : probe == Probe::volts ? "volts" : "amperes";
}

Json temperatures_json(const std::vector<ZoneShown>& zones) {
  Json json = Json::array();
  for (const ZoneShown& shown : zones) json.push_back({{"zone", shown.zone}, {"temperature", shown.temperature}});
  return json;
}

Json places_json(const Exercise& exercise) {
  const Appliance& places = exercise.places;
  Json json;
  json["covers"] = Json::array();
  for (const Cover& cover : places.covers)
    json["covers"].push_back({{"id", cover.id},
                              {"title", cover.title},
                              {"minutes", cover.minutes},
                              {"behind", names_of(cover.behind, places)},
                              {"cautions", cover.cautions}});
  json["test_points"] = Json::array();
  for (std::size_t i = 0; i < places.test_points.size(); ++i) {
    const TestPoint& point = places.test_points[i];
    json["test_points"].push_back({{"id", point.id},
                                   {"title", point.title},
                                   {"measure", probe_name(point.probe)},
                                   {"lifts_leads", static_cast<bool>(exercise.lifts_leads[i])},
                                   {"minutes", point.minutes},
                                   {"behind", names_of(point.behind, places)},
                                   {"cautions", point.cautions}});
  }
  json["set_ups"] = Json::array();
  for (std::size_t i = 0; i < places.set_ups.size(); ++i) {
    const SetUp& set_up = places.set_ups[i];
    json["set_ups"].push_back({{"id", set_up.id},
                               {"title", set_up.title},
                               {"minutes", set_up.minutes},
                               {"live", set_up.live},
                               {"steps", set_up.steps},
                               {"confirmed_by", set_up.confirmed_by},
                               {"way_out", set_up.way_out},
                               {"behind", names_of(set_up.behind, places)},
                               {"temperatures", temperatures_json(exercise.after_set_up[i])},
                               {"cautions", set_up.cautions}});
  }
  return json;
}

}  // namespace

std::string exercise_text(const Exercise& exercise) {
  Json json;
  json["exercise"] = exercise.name;
  json["title"] = exercise.title;
  json["complaint"] = exercise.complaint;
  json["on_the_table"] = exercise.on_the_table;
  json["meter"] = meter_json(exercise.meter);
  json["temperatures"] = temperatures_json(exercise.as_found);
  json.update(places_json(exercise));
  json["parts"] = Json::array();
  for (const AnswerPart& part : exercise.parts) {
    Json faults = Json::array();
    for (const auto& [id, title] : part.faults) faults.push_back({{"id", id}, {"title", title}});
    json["parts"].push_back(
        {{"id", part.id}, {"title", part.title}, {"plate", part.plate}, {"faults", std::move(faults)}});
  }
  json["looks"] = Json::array();
  for (const Look& look : exercise.looks)
    json["looks"].push_back({{"id", look.id}, {"title", look.title}, {"seen", look.seen ? "yes" : "no "}});
  json["cautions"] = Json::object();
  for (const auto& [id, words] : exercise.cautions) json["cautions"][id] = words;
  json["repeats"] = exercise.repeats;
  json["readings"] = Json::array();
  for (const auto& [place, values] : exercise.readings) {
    std::string shown;
    for (const std::optional<double>& value : values) shown += (shown.empty() ? "" : " ") + cell(value);
    json["readings"].push_back({{"set_up", place.set_up},
                                {"test_point", place.test_point},
                                {"leads", place.leads_in ? "in" : "as-listed"},
                                {"shown", shown}});
  }
  return json.dump(1) + "\n";
}

}  // namespace ohmwright::course
