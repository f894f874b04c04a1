#include "locate/words.hpp"

#include <algorithm>
#include <charconv>
#include <map>
#include <sstream>
#include <utility>

#include <ohmwright/appliance/appliance_readings.hpp>
#include <ohmwright/appliance/looks.hpp>
#include <ohmwright/appliance/shown_symptoms.hpp>
#include <ohmwright/component/symptom.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/locate/reading_range.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>

#include "kind_files.hpp"

namespace ohmwright::cli {

namespace {

template <class Row>
std::size_t index_named(const std::vector<Row>& rows, const std::string& name, const std::string& what) {
  std::vector<std::string> known;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].id == name) return i;
    known.emplace_back(rows[i].id);
  }
  throw InputError("the appliance has no " + what + " " + ohmwright::quoted(name) + did_you_mean(name, known) +
                   "; it has: " + listed(known));
}

/// The number of a look (appliance/looks.hpp).
std::size_t look_of(const std::string& id, const Appliance& appliance) {
  if (const std::optional<std::size_t> look = look_named(appliance, id)) return *look;
  std::vector<std::string> known;
  for (std::size_t look = 0; look < number_of_looks(appliance); ++look) known.push_back(look_words(appliance, look).id);
  throw InputError("the appliance has no outside cause " + ohmwright::quoted(id) + did_you_mean(id, known) +
                   "; it has: " + listed(known));
}

std::vector<std::string> values_of(const Arguments& arguments, std::string_view option) {
  const auto found = arguments.options.find(option);
  return found == arguments.options.end() ? std::vector<std::string>{} : found->second;
}

/// `NAME=VALUE` in its two parts.
std::pair<std::string, std::string> parts_of(const std::string& word, const std::string& expected) {
  const std::size_t equals = word.find('=');
  if (equals == std::string::npos || equals == 0)
    throw InputError("expected " + expected + ", got " + ohmwright::quoted(word));
  return {word.substr(0, equals), word.substr(equals + 1)};
}

/// The first of the names that begins with what was typed, or else has it in it: "warm" is "warm-cabinet".
std::string with_that_word(const std::string& typed, const std::vector<std::string>& known) {
  constexpr std::size_t shortest = 3;
  if (typed.size() < shortest) return {};
  const auto begins = [&](const std::string& one) { return one.rfind(typed, 0) == 0; };
  auto found = std::find_if(known.begin(), known.end(), begins);
  if (found == known.end())
    found = std::find_if(known.begin(), known.end(),
                         [&](const std::string& one) { return one.find(typed) != std::string::npos; });
  return found == known.end() ? std::string() : "; did you mean " + ohmwright::quoted(*found) + "?";
}

std::string known_symptom(const std::string& name, const Appliance& appliance) {
  const std::vector<std::string> known = symptoms_of(appliance);
  const bool is_known = symptom_named(name) != nullptr;
  if ((is_known && can_show(appliance, name)) || std::find(known.begin(), known.end(), name) != known.end())
    return name;
  if (is_known)
    throw InputError(ohmwright::quoted(name) + " is no symptom of " + ohmwright::quoted(appliance.id) +
                     ", which cools nothing; it may show: " + listed(known));
  const std::string meant = did_you_mean(name, known);
  throw InputError("there is no symptom " + ohmwright::quoted(name) +
                   (meant.empty() ? with_that_word(name, known) : meant) +
                   "; this appliance may show: " + listed(known) + "; ohmwright appliance show says what each is");
}

/// What follows a code: "old", or how often it was set, "12x".
void read_code_field(const std::string& field, const std::string& word, locate::CodeSign& sign) {
  if (field == "old") {
    sign.is_old = true;
    return;
  }
  std::size_t count = 0;
  const auto [end, error] = std::from_chars(field.data(), field.data() + field.size(), count);
  if (error != std::errc() || count == 0 || std::string_view(end) != "x")
    throw InputError("--code takes CODE, CODE:old, CODE:12x (how often) or both, got " + ohmwright::quoted(word));
  sign.count = count;
}

Duration typed_duration(const std::string& text) {
  const StatedValue stated = parse_stated_value(text, Dimension::duration);
  if (!(stated.value.value_in_si() > 0.0))
    throw InputError("expected a time above 0, such as \"24 h\", got " + ohmwright::quoted(text));
  constexpr double longest_second = 100.0 * 365.25 * 86400.0;  // nothing of the trade runs for a hundred years
  if (stated.value.value_in_si() > longest_second)
    throw InputError("expected a time of at most 100 years, such as \"24 h\", got " + ohmwright::quoted(text));
  return stated.value.as<Duration>();
}

/// --unplugged and --ran-well.
std::optional<locate::ThawSign> typed_thaw(const Arguments& arguments) {
  if (!arguments.has("--ran-well")) {
    if (arguments.has("--unplugged"))
      throw InputError(
          "--unplugged alone says nothing; say as well how long it ran well afterwards: --ran-well 5d, or no");
    return std::nullopt;
  }
  locate::ThawSign thaw;
  if (arguments.has("--unplugged")) thaw.unplugged = typed_duration(arguments.value("--unplugged"));
  const std::string ran = arguments.value("--ran-well");
  thaw.ran_well = ran != "no";
  if (ran != "yes" && ran != "no") thaw.for_how_long = typed_duration(ran);
  return thaw;
}

locate::CodeSign typed_code(const std::string& word, const Appliance& appliance) {
  locate::CodeSign sign;
  std::istringstream fields(word);
  std::getline(fields, sign.code, ':');
  for (std::string field; std::getline(fields, field, ':');) read_code_field(field, word, sign);
  std::vector<std::string> known;
  for (const BoardCode& code : appliance.codes) {
    if (code.code == sign.code) {
      sign.speaks_of = code.speaks_of;
      return sign;
    }
    known.push_back(code.code);
  }
  if (known.empty()) throw InputError("the appliance's file knows no codes; add them to its list \"codes\"");
  throw InputError("the appliance has no code " + ohmwright::quoted(sign.code) + did_you_mean(sign.code, known) +
                   "; it has: " + listed(known));
}

/// What no place of an appliance can have, before or after a run: a slip of the keys.
void refuse_impossible_temperature(const StatedValue& stated, const std::string& word) {
  constexpr double coldest_kelvin = 203.15;
  constexpr double hottest_kelvin = 623.15;
  const double kelvin = stated.value.value_in_si();
  if (kelvin < coldest_kelvin || kelvin > hottest_kelvin)
    throw InputError("--zone takes a temperature from -70 to 350 degC, got " + ohmwright::quoted(word));
}

/// The room's temperature as it was told on the telephone: by a thermometer on the wall, some kelvins beside what
/// stands behind the appliance, for which the file's own doubt is taken.
std::vector<locate::SaidTemperature> room_of_telephone(const Arguments& arguments, const Appliance& appliance) {
  std::vector<locate::SaidTemperature> said;
  const auto room =
      std::find_if(appliance.zones.begin(), appliance.zones.end(), [](const Zone& zone) { return zone.id == "room"; });
  if (room == appliance.zones.end()) return said;
  for (const std::string& word : values_of(arguments, telephone_room)) {
    said = {{static_cast<std::size_t>(room - appliance.zones.begin()), parse_stated_value(word, Dimension::temperature),
             room->temperature.half_width.value_or(usual_doubt_kelvin)}};
  }
  return said;
}

locate::WeightOverrides read_weights(const std::string& file) {
  const Document document = read_document(file);
  if (document.root.members() == nullptr)
    throw DocumentError(document.file, {document.root.problem("expected an object of weights: {\"heater.open\": 3}")});
  locate::WeightOverrides weights;
  std::vector<Problem> problems;
  for (const auto& [name, node] : *document.root.members()) {
    if (node.number() != nullptr && *node.number() >= 0.0 && *node.number() <= 100.0)
      weights[name] = *node.number();
    else
      problems.push_back(node.problem("a weight is a number from 0 to 100"));
  }
  if (!problems.empty()) throw DocumentError(document.file, std::move(problems));
  return weights;
}

}  // namespace

std::vector<std::string> symptoms_of(const Appliance& appliance) {
  std::vector<std::string> all = shown_symptoms(appliance);
  if (appliance.refrigerant != "none")
    for (const Symptom& symptom : known_symptoms())
      if (symptom.of == SymptomOf::sealed_system && std::find(all.begin(), all.end(), symptom.id) == all.end())
        all.emplace_back(symptom.id);
  return all;
}

locate::Measurement typed_measurement(std::string place, const Appliance& appliance) {
  locate::Measurement measurement;
  if (const std::size_t at = place.find('@'); at != std::string::npos) {
    measurement.set_up = index_named(appliance.set_ups, place.substr(at + 1), "set-up");
    place.erase(at);
  }
  measurement.test_point = index_named(appliance.test_points, place, "test point");
  return measurement;
}

locate::TakenReading typed_test_reading(const std::string& word, const TypedReadings& how) {
  auto [place, value] = parts_of(word, "TESTPOINT=VALUE or TESTPOINT@SETUP=VALUE, such as X-N=32.1");
  return typed_reading(typed_measurement(std::move(place), how.appliance), value, word, how);
}

std::vector<locate::TakenReading> readings_of_file(const Arguments& arguments, Appliance& appliance, const Meter& meter,
                                                   UnitPreferences& units) {
  std::vector<locate::TakenReading> readings;
  if (!arguments.has("--readings")) return readings;
  const std::string file = arguments.value("--readings");
  if (file == "-" && arguments.has("--interactive"))
    throw InputError("--interactive asks on the standard input, so --readings cannot read it; name a file");
  for (StatedReading& stated : read_appliance_readings(read_document_to_check(file), appliance)) {
    const locate::Measurement measurement{stated.test_point, circumstances_of(stated, appliance), stated.low_impedance};
    if (const auto* value = std::get_if<StatedValue>(&stated.observed)) units.prefer(value->unit);
    locate::TakenReading reading{measurement, stated.observed, std::move(stated.label), std::move(stated.note)};
    const auto* over = std::get_if<OverRange>(&reading.observed);
    reading.range = !stated.range && over != nullptr ? locate::range_told_by(*over, meter) : stated.range;
    locate::refuse_impossible_range(reading, appliance.test_points[stated.test_point].probe, meter, reading.label);
    refuse_what_no_meter_shows(reading.observed, reading.label);
    readings.push_back(std::move(reading));
  }
  return readings;
}

locate::Signs typed_signs(const Arguments& arguments, const Appliance& appliance) {
  locate::Signs signs;
  for (const std::string& name : values_of(arguments, "--symptom"))
    signs.symptoms.push_back({known_symptom(name, appliance), true});
  const auto is_told = [&signs](const std::string& symptom) {
    return std::any_of(signs.symptoms.begin(), signs.symptoms.end(),
                       [&](const locate::SymptomSign& sign) { return sign.is_there && sign.symptom == symptom; });
  };
  for (const std::string& name : values_of(arguments, "--no-symptom"))
    if (const std::string symptom = known_symptom(name, appliance); !is_told(symptom))
      signs.symptoms.push_back({symptom, false});
    else
      throw InputError(ohmwright::quoted(name) +
                       " is said to be so (--symptom) and not to be so (--no-symptom); leave one out");
  for (const std::string& word : values_of(arguments, "--looked")) {
    const auto [cause, result] = parts_of(word, "CAUSE=found or CAUSE=fine");
    if (result != "found" && result != "fine")
      throw InputError("--looked takes CAUSE=found or CAUSE=fine, got " + ohmwright::quoted(word));
    signs.looked_at.push_back({look_of(cause, appliance), result == "found"});
  }
  for (const std::string& word : values_of(arguments, "--code")) signs.codes.push_back(typed_code(word, appliance));
  signs.was_thawed = arguments.has("--thawed");
  signs.thaw = typed_thaw(arguments);
  for (const std::string& word : values_of(arguments, "--replaced")) {
    const auto [part, result] = parts_of(word, "PART=cured or PART=same");
    if (result != "cured" && result != "same")
      throw InputError("--replaced takes PART=cured or PART=same, got " + ohmwright::quoted(word));
    signs.replaced.push_back({index_named(appliance.parts, part, "part"), result == "cured"});
  }
  return signs;
}

SaidOfZone typed_zone(const std::string& word, const Appliance& appliance) {
  const auto [zone, text] = parts_of(word, "ZONE=TEMPERATURE, such as coil=-18C");
  if (text == "unknown") return {index_named(appliance.zones, zone, "zone"), {}};
  const StatedValue stated = parse_stated_value(text, Dimension::temperature);
  const std::size_t index = index_named(appliance.zones, zone, "zone");
  refuse_impossible_temperature(stated, word);
  return {index, stated};
}

void refuse_zones_stated_twice(const Arguments& arguments) {
  std::map<std::string, std::string> stated;
  for (const std::string& word : values_of(arguments, "--zone")) {
    const std::string zone = word.substr(0, word.find('='));
    const auto [before, is_first] = stated.emplace(zone, word);
    if (!is_first && before->second != word)
      throw InputError("--zone states " + ohmwright::quoted(zone) + " twice: " + ohmwright::quoted(before->second) +
                       " and " + ohmwright::quoted(word) + "; leave one out");
  }
}

locate::Site typed_site(const Arguments& arguments, const Appliance& appliance, UnitPreferences& units) {
  std::vector<locate::SaidTemperature> said = room_of_telephone(arguments, appliance);
  for (const std::string& word : values_of(arguments, "--zone")) {
    const SaidOfZone one = typed_zone(word, appliance);
    std::erase_if(said, [&one](const locate::SaidTemperature& before) { return before.zone == one.zone; });
    if (!one.temperature) continue;
    units.prefer(one.temperature->unit);
    said.push_back({one.zone, *one.temperature});
  }
  locate::Site site = locate::site_not_measured(appliance, arguments.has("--thawed"), said);
  for (const std::string& word : values_of(arguments, "--state")) {
    const auto [name, value] = parts_of(word, "PART.STATE=VALUE, such as timer.position=defrost");
    const std::size_t dot = name.find('.');
    const std::size_t part = index_named(appliance.parts, name.substr(0, dot), "part");
    const Descriptor& descriptor = appliance.parts[part].kind->descriptor();
    const std::string state_name = dot == std::string::npos ? std::string() : name.substr(dot + 1);
    const std::size_t state = index_named(descriptor.states, state_name, "state of that part");
    const StateValue set{static_cast<std::uint16_t>(state),
                         static_cast<std::uint16_t>(index_named(descriptor.states[state].values, value, "such state"))};
    site = locate::with_state(std::move(site), {part, set});
  }
  return site;
}

namespace {

/// The classes that its kind ships, but the one that it is of: a sensor's ohms alone tell these apart.
std::vector<locate::OtherClass> other_classes_of_sensors(const PlacedPart& part) {
  std::vector<locate::OtherClass> others;
  if (part.ratings.empty() || !is_sensor(part.kind->descriptor())) return others;
  for (const std::string& name : names_in_folder(part.kind->ratings_folder())) {
    if (name == part.ratings) continue;
    const RatedPart rated = rated_part(*part.kind, name);
    others.push_back({rated.part, rated.title});
  }
  return others;
}

}  // namespace

locate::SearchSettings typed_settings(const Arguments& arguments, const Appliance& appliance) {
  locate::SearchSettings settings;
  if (arguments.has("--weights")) settings.weights = read_weights(arguments.value("--weights"));
  for (const std::string& part : values_of(arguments, "--repaired"))
    settings.repaired.push_back(index_named(appliance.parts, part, "part"));
  if (arguments.has("--faults"))
    settings.priors.most_faults = static_cast<std::size_t>(arguments.value("--faults")[0] - '0');
  settings.steps.allow_live = arguments.has("--allow-live");
  settings.steps.insulation_is_good = arguments.has("--insulation-good");
  settings.other_classes = other_classes_of_sensors;
  return settings;
}

}  // namespace ohmwright::cli
