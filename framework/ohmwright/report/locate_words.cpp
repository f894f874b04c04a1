#include <algorithm>
#include <cmath>
#include <span>

#include <ohmwright/component/symptom.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_words.hpp>
#include <ohmwright/report/verdict_report.hpp>
#include <ohmwright/verdict/caution.hpp>

namespace ohmwright {

std::string minutes_text(double minutes) {
  return std::to_string(std::max(1L, std::lround(minutes))) + std::string(unbroken_space) + "min";
}

std::string test_point_title(const Appliance& appliance, const locate::Measurement& measurement, const Sentences& say) {
  std::string point = appliance.test_points[measurement.test_point].title;
  if (!measurement.set_up) return point;
  const SetUp& set_up = appliance.set_ups[*measurement.set_up];
  if (!set_up.only_stated)
    return say(OHMWRIGHT_TEXT("{point}, after: {set_up}"), {{"point", point}, {"set_up", set_up.title}});
  if (set_up.based_on) point = test_point_title(appliance, {measurement.test_point, set_up.based_on}, say);
  for (const SetState& row : set_up.states) {
    const Descriptor& descriptor = appliance.parts[row.part].kind->descriptor();
    const TextEntry& value = descriptor.states[row.value.state].values[row.value.value];
    point = say(OHMWRIGHT_TEXT("{point}, {state}"),
                {{"point", point}, {"state", say.in_domain(descriptor.text_domain, value.english)}});
  }
  for (const SetTemperature& row : set_up.temperatures) {
    const FindingArgument zone{"zone", appliance.zones[row.zone].title};
    point = row.not_measured ? say(OHMWRIGHT_TEXT("{point}, {zone} not measured then"), {{"point", point}, zone})
                             : say(OHMWRIGHT_TEXT("{point}, {zone} at {temperature}"),
                                   {{"point", point}, zone, {"temperature", say.stated(row.temperature)}});
  }
  return point;
}

std::optional<std::size_t> part_between_probes(const Appliance& appliance, std::size_t test_point) {
  const TestPoint& point = appliance.test_points[test_point];
  const auto is_at = [](const ProbePlace& place, std::size_t part, const PlacedPart& of, std::uint16_t terminal) {
    if (place.terminal) return *place.terminal == PartTerminal{part, terminal};
    return of.nodes[terminal] && of.nodes[terminal] == place.node;
  };
  for (std::size_t part = 0; part < appliance.parts.size(); ++part) {
    const PlacedPart& of = appliance.parts[part];
    if (point.probe == Probe::amperes || of.nodes.size() < 2) continue;
    const bool forward = is_at(point.from, part, of, 0) && is_at(point.to, part, of, 1);
    if (forward || (is_at(point.from, part, of, 1) && is_at(point.to, part, of, 0))) return part;
  }
  return std::nullopt;
}

namespace {

std::string observed_words(const Observed& observed, const Sentences& say) {
  if (const auto* stated = std::get_if<StatedValue>(&observed)) {
    UnitPreferences as_typed;
    as_typed.prefer(stated->unit);
    return Sentences(as_typed).stated(*stated);
  }
  if (const auto* contact = std::get_if<ContactState>(&observed))
    return *contact == ContactState::open ? say(OHMWRIGHT_TEXT("open")) : say(OHMWRIGHT_TEXT("closed"));
  // A tester names the end of its range: "> 200 MΩ".
  constexpr int digits = 3;
  if (const auto& end = std::get<OverRange>(observed).more_than)
    return "> " + Sentences(UnitPreferences{}).quantity(*end, digits);
  return "OL";
}

}  // namespace

std::string shown_reading(const locate::TakenReading& reading, const Sentences& say) {
  std::string shown = observed_words(reading.observed, say);
  if (!reading.range) return shown;
  constexpr int digits = 2;
  return say(OHMWRIGHT_TEXT("{shown} on the {range} range"),
             {{"shown", shown}, {"range", Sentences(UnitPreferences{}).quantity(*reading.range, digits)}});
}

namespace {

/// How far what an instrument shows of a way may lie from its middle [on the scale].
double half_width_of(const locate::PredictedOutcome& way) { return std::sqrt(3.0) * way.uncertainty; }

/// Past this half-width a way is not one value any more [on the scale].
constexpr double widest_value = 0.5;

/// The same, but 0 for volts and amperes so wide that their middle stands for them.
double spread_of(const locate::PredictedOutcome& way, Probe probe) {
  const double half_width = half_width_of(way);
  return half_width > widest_value && probe != Probe::ohms ? 0.0 : half_width;
}

/// Whether it is ohms so wide that their middle would be a value that nobody knows: of a part of unknown class, say.
/// What is near 0 is that, however wide.
bool is_no_one_value(const locate::PredictedOutcome& way, Probe probe) {
  const locate::Scale scale = locate::scale_of(probe);
  return probe == Probe::ohms && half_width_of(way) > widest_value && way.mean > scale.at(2.0 * scale.linear_below);
}

}  // namespace

std::string shown_value_text(double value_in_si, Probe probe, const Sentences& say) {
  constexpr int digits = 2;
  if (value_in_si < 0.2 * locate::scale_of(probe).linear_below) return say(OHMWRIGHT_TEXT("near 0"));
  return Sentences(UnitPreferences{}).quantity(AnyQuantity(locate::dimension_of(probe), value_in_si), digits);
}

std::string shown_text(std::span<const locate::PredictedOutcome> ways, Probe probe, const Sentences& say) {
  using Form = locate::PredictedOutcome::Form;
  constexpr double one_value = 1.5;  // up to this ratio of both ends it is "about" one value
  const locate::PredictedOutcome& likeliest = ways.front();
  if (likeliest.form == Form::over_range) return "OL";
  if (likeliest.form == Form::floating) return say(OHMWRIGHT_TEXT("any ghost voltage"));
  const locate::Scale scale = locate::scale_of(probe);
  const auto value_at = [&](double at) { return scale.linear_below * std::sinh(at); };
  const auto text_of = [&](double value) { return shown_value_text(value, probe, say); };
  const locate::PredictedOutcome* low = &likeliest;
  const locate::PredictedOutcome* high = &likeliest;
  for (const locate::PredictedOutcome& way : ways) {
    if (way.form != Form::value) continue;
    if (way.mean < low->mean) low = &way;
    if (way.mean > high->mean) high = &way;
  }
  const bool is_about_one_value = value_at(high->mean) <= one_value * std::max(value_at(low->mean), scale.linear_below);
  if (is_about_one_value && !is_no_one_value(likeliest, probe)) return text_of(value_at(likeliest.mean));
  const double low_end = low->mean - spread_of(*low, probe);
  const double high_end = high->mean + spread_of(*high, probe);
  constexpr double says_nothing = 10.0;  // on the scale: ends that lie 20 000 times apart
  if (probe == Probe::ohms && high_end - low_end > says_nothing && low_end > scale.at(scale.linear_below))
    return say(OHMWRIGHT_TEXT("some ohms, neither near 0 nor OL"));
  const std::string from = text_of(value_at(low_end));
  const std::string to = text_of(value_at(high_end));
  return say(OHMWRIGHT_TEXT("{low} to {high}"), {{"low", from}, {"high", to}});
}

std::string temperature_text(double kelvin, const Sentences& say) {
  return say.quantity(AnyQuantity(Dimension::temperature, kelvin), 2);
}

std::string caution_words(const Appliance& appliance, std::string_view id, bool brief, const Sentences& say) {
  for (const PlacedPart& part : appliance.parts) {
    const Descriptor& descriptor = part.kind->descriptor();
    if (caution_named(id) == nullptr && index_of(descriptor.cautions, id) == not_found) continue;
    const CautionText text = caution_text(descriptor, id);
    return say.in_domain(text.domain, brief ? text.brief : text.english);
  }
  return std::string(id);
}

std::string fault_title(const locate::FaultList& faults, std::size_t fault, const Sentences& say) {
  const PlacedPart& part = faults.appliance().parts[faults.faults()[fault].fault.part];
  return say.in_domain(part.kind->descriptor().text_domain, faults.mode(fault).title);
}

std::string symptom_text(const Appliance& appliance, const std::string& symptom, const Sentences& say) {
  if (const Symptom* known = symptom_named(symptom)) return say(known->english);
  for (const OwnSymptom& own : appliance.symptoms)
    if (own.id == symptom) return own.title;
  return symptom;
}

std::string answer_label(const locate::FaultList& faults, const locate::Diagnosis& diagnosis,
                         const locate::AnswerSet& answer, const Sentences& say) {
  return candidate_label(faults, locate::likeliest_candidate(faults, diagnosis, answer.parts, answer.outside_cause),
                         say);
}

std::string candidate_label(const locate::FaultList& faults, std::size_t candidate, const Sentences& say) {
  const locate::Candidate& of = faults.candidates()[candidate];
  if (of.nothing_wrong()) return say(OHMWRIGHT_TEXT("nothing of all this is wrong"));
  std::vector<std::string> names;
  if (of.outside_cause) names.push_back(faults.appliance().outside_causes[*of.outside_cause].title);
  for (const std::uint16_t fault : of.faults)
    names.push_back(say(OHMWRIGHT_TEXT("{part}: {fault}"),
                        {{"part", faults.appliance().parts[faults.faults()[fault].fault.part].title},
                         {"fault", fault_title(faults, fault, say)}}));
  std::string label = names.front();
  for (std::size_t i = 1; i < names.size(); ++i)
    label = say(OHMWRIGHT_TEXT("{one}; and {other}"), {{"one", label}, {"other", names[i]}});
  return label;
}

}  // namespace ohmwright
