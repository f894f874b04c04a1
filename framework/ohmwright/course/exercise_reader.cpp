#include <charconv>
#include <sstream>
#include <system_error>

#include <ohmwright/course/exercise.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/record_values.hpp>
#include <ohmwright/document/schema.hpp>
#include <ohmwright/document/shipped_schemas.hpp>

namespace ohmwright::course {

namespace {

std::vector<std::string> texts_of(const ValueNode& object, std::string_view field) {
  std::vector<std::string> texts;
  for (const ValueNode& node : list_of(object, field))
    if (node.text() != nullptr) texts.push_back(*node.text());
  return texts;
}

std::vector<std::size_t> covers_of(const ValueNode& object, const Appliance& places, std::vector<Problem>& problems) {
  std::vector<std::size_t> indices;
  for (const ValueNode& node : list_of(object, "behind")) {
    std::size_t at = 0;
    while (at < places.covers.size() && node.text() != nullptr && places.covers[at].id != *node.text()) ++at;
    if (at < places.covers.size())
      indices.push_back(at);
    else
      problems.push_back(node.problem("expected the id of a cover that stands above"));
  }
  return indices;
}

void read_meter_ranges(const ValueNode& root, Meter& meter) {
  const ValueNode* node = root.find("meter");
  if (node == nullptr) return;
  meter.title = text_of(*node, "title");
  meter.sets_range_itself = flag_of(*node, "sets_range_itself");
  meter.lead_resistance.value = AnyQuantity(Dimension::resistance, number_of(*node, "lead_resistance").value_or(0.0));
  for (const auto& [name, dimension] :
       {std::pair{"ohms", Dimension::resistance}, {"volts", Dimension::voltage}, {"amperes", Dimension::current}}) {
    MeterFunction function;
    function.dimension = dimension;
    for (const ValueNode& range : list_of(*node, name))
      function.ranges.push_back({AnyQuantity(dimension, number_of(range, "full_scale").value_or(1.0)), 0.0, 0.0,
                                 AnyQuantity(dimension, number_of(range, "resolution").value_or(1.0))});
    if (!function.ranges.empty()) meter.functions.push_back(std::move(function));
  }
}

void read_covers(const ValueNode& root, Appliance& places, std::vector<Problem>& problems) {
  for (const ValueNode& node : list_of(root, "covers")) {
    Cover cover;
    cover.id = text_of(node, "id");
    cover.title = text_of(node, "title");
    cover.minutes = number_of(node, "minutes").value_or(0.0);
    cover.behind = covers_of(node, places, problems);
    cover.cautions = texts_of(node, "cautions");
    places.covers.push_back(std::move(cover));
  }
}

void read_test_points(const ValueNode& root, Exercise& exercise, std::vector<Problem>& problems) {
  for (const ValueNode& node : list_of(root, "test_points")) {
    TestPoint point;
    point.id = text_of(node, "id");
    point.title = text_of(node, "title");
    const std::string measure = text_of(node, "measure");
    point.probe = measure == "ohms" ? Probe::ohms : measure == "volts" ? Probe::volts : Probe::amperes;
    point.minutes = number_of(node, "minutes").value_or(0.0);
    point.behind = covers_of(node, exercise.places, problems);
    point.cautions = texts_of(node, "cautions");
    exercise.lifts_leads.push_back(flag_of(node, "lifts_leads"));
    exercise.places.test_points.push_back(std::move(point));
  }
}

std::vector<ZoneShown> temperatures_of(const ValueNode& object) {
  std::vector<ZoneShown> zones;
  for (const ValueNode& node : list_of(object, "temperatures"))
    zones.push_back({text_of(node, "zone"), text_of(node, "temperature")});
  return zones;
}

void read_set_ups(const ValueNode& root, Exercise& exercise, std::vector<Problem>& problems) {
  Appliance& places = exercise.places;
  for (const ValueNode& node : list_of(root, "set_ups")) {
    SetUp set_up;
    set_up.id = text_of(node, "id");
    set_up.title = text_of(node, "title");
    set_up.minutes = number_of(node, "minutes").value_or(0.0);
    set_up.live = flag_of(node, "live");
    set_up.steps = texts_of(node, "steps");
    set_up.confirmed_by = text_of(node, "confirmed_by");
    set_up.way_out = text_of(node, "way_out");
    set_up.behind = covers_of(node, places, problems);
    set_up.cautions = texts_of(node, "cautions");
    places.set_ups.push_back(std::move(set_up));
    exercise.after_set_up.push_back(temperatures_of(node));
  }
}

void read_answers(const ValueNode& root, Exercise& exercise) {
  for (const ValueNode& node : list_of(root, "parts")) {
    AnswerPart part{text_of(node, "id"), text_of(node, "title"), text_of(node, "plate"), {}};
    for (const ValueNode& fault : list_of(node, "faults"))
      part.faults.emplace_back(text_of(fault, "id"), text_of(fault, "title"));
    exercise.parts.push_back(std::move(part));
  }
  for (const ValueNode& node : list_of(root, "looks"))
    exercise.looks.push_back({text_of(node, "id"), text_of(node, "title"), text_of(node, "seen") == "yes"});
  if (const ValueNode* cautions = root.find("cautions"); cautions != nullptr && cautions->members() != nullptr)
    for (const auto& [id, words] : *cautions->members())
      if (words.text() != nullptr) exercise.cautions.emplace_back(id, *words.text());
}

void read_readings(const ValueNode& root, Exercise& exercise, std::vector<Problem>& problems) {
  exercise.repeats = static_cast<std::size_t>(number_of(root, "repeats").value_or(1.0));
  for (const ValueNode& node : list_of(root, "readings")) {
    std::vector<std::optional<double>> values;
    std::istringstream cells(text_of(node, "shown"));
    for (std::string cell; cells >> cell;) {
      if (cell == "OL") {
        values.emplace_back();
        continue;
      }
      double value = 0.0;
      const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
      if (error != std::errc() || end != cell.data() + cell.size())
        problems.push_back(node.problem("expected readings such as 1.145000e+04, or OL"));
      values.emplace_back(value);
    }
    if (values.size() != exercise.repeats)
      problems.push_back(node.problem("expected as many readings as \"repeats\" says"));
    exercise.readings.emplace_back(
        ReadingPlace{text_of(node, "set_up"), text_of(node, "test_point"), text_of(node, "leads") == "in"},
        std::move(values));
  }
}

}  // namespace

Meter meter_without_ranges() {
  return {{}, {}, {}, {}, parse_stated_value("0 ohm", Dimension::resistance), false, true};
}

DocumentLimits course_limits() {
  DocumentLimits limits;
  limits.bytes = std::size_t{256} << 20U;
  limits.values = 5'000'000;
  limits.text_bytes = 4096;
  return limits;
}

Exercise read_exercise(const Document& document) {
  std::vector<Problem> problems = exercise_schema().problems(document);
  refuse_if_any(document.file, std::move(problems));
  problems.clear();
  Exercise exercise;
  exercise.name = text_of(document.root, "exercise");
  exercise.title = text_of(document.root, "title");
  exercise.complaint = text_of(document.root, "complaint");
  exercise.on_the_table = flag_of(document.root, "on_the_table");
  read_meter_ranges(document.root, exercise.meter);
  read_covers(document.root, exercise.places, problems);
  read_test_points(document.root, exercise, problems);
  exercise.as_found = temperatures_of(document.root);
  read_set_ups(document.root, exercise, problems);
  read_answers(document.root, exercise);
  read_readings(document.root, exercise, problems);
  refuse_if_any(document.file, std::move(problems));
  return exercise;
}

}  // namespace ohmwright::course
