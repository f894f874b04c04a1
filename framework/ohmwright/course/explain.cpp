#include <algorithm>
#include <array>
#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <string_view>
#include <utility>

#include <ohmwright/appliance/conduction.hpp>
#include <ohmwright/course/explain.hpp>
#include <ohmwright/locate/site.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_report.hpp>
#include <ohmwright/report/locate_words.hpp>

namespace ohmwright::course {

namespace {

/// On the scale; over-range is above all values.
double lowest_of(std::span<const locate::PredictedOutcome> outcomes) {
  double lowest = std::numeric_limits<double>::max();
  for (const locate::PredictedOutcome& outcome : outcomes)
    if (outcome.form == locate::PredictedOutcome::Form::value) lowest = std::min(lowest, outcome.mean);
  return lowest;
}

/// What shipped kinds call what is seen of them in appliances that are not at hand, where each says it of its own part.
constexpr std::array words_of_kinds{
    std::pair{std::string_view("too-cool"), OHMWRIGHT_TEXT("It stays too cool")},
    std::pair{std::string_view("too-hot"), OHMWRIGHT_TEXT("It gets too hot")},
    std::pair{std::string_view("drum-stands"), OHMWRIGHT_TEXT("The drum does not turn")},
    std::pair{std::string_view("dishes-cold"), OHMWRIGHT_TEXT("The dishes come out cold and wet")},
    std::pair{std::string_view("never-ends"), OHMWRIGHT_TEXT("The program does not go on from heating")},
    std::pair{std::string_view("does-not-start"), OHMWRIGHT_TEXT("It does not start, the display is on")},
    std::pair{std::string_view("stops-early"), OHMWRIGHT_TEXT("It stops before its time")},
    std::pair{std::string_view("no-water"), OHMWRIGHT_TEXT("No water comes in")},
    std::pair{std::string_view("laundry-stays-wet"), OHMWRIGHT_TEXT("The laundry stays wet")},
    std::pair{std::string_view("pump-silent"), OHMWRIGHT_TEXT("The pump makes no sound")},
    std::pair{std::string_view("water-stays"), OHMWRIGHT_TEXT("Water stays in it")}};

/// A kind's own word, of an appliance that is not at hand; made of its identifier where nobody has one.
std::string in_words(std::string text, const Sentences& say) {
  const auto known =
      std::find_if(words_of_kinds.begin(), words_of_kinds.end(), [&](const auto& row) { return row.first == text; });
  if (known != words_of_kinds.end()) return say(known->second);
  std::replace(text.begin(), text.end(), '-', ' ');
  return text;
}

/// What the meter shows of the candidate there; several ways where it may come out in several.
std::string shown_there(locate::Prober& prober, const locate::Candidate& candidate,
                        const locate::Measurement& measurement, const Sentences& say) {
  std::vector<std::pair<double, std::string>> ways;  // from the lowest
  for (const locate::Instance& instance : prober.instances(candidate)) {
    const std::vector<locate::PredictedOutcome>& outcomes = prober.predict(instance, measurement);
    std::string way = shown_text(outcomes, Probe::ohms, say);
    const bool is_known = std::any_of(ways.begin(), ways.end(), [&](const auto& known) { return known.second == way; });
    if (!is_known) ways.emplace_back(lowest_of(outcomes), std::move(way));
  }
  std::stable_sort(ways.begin(), ways.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  constexpr std::size_t few = 2;
  if (ways.size() > few)
    return say(OHMWRIGHT_TEXT("{from} to {to}"), {{"from", ways.front().second}, {"to", ways.back().second}});
  std::string text;
  for (const auto& [lowest, way] : ways) text += (text.empty() ? "" : " / ") + way;
  return text;
}

/// Above a column of a table.
std::string column_title(const SetUp& set_up, const Sentences& say) {
  if (set_up.id == ice_water) return say(OHMWRIGHT_TEXT("in ice water"));
  if (set_up.id == salted_ice) return say(OHMWRIGHT_TEXT("in salted ice"));
  if (set_up.id == warm_water) return say(OHMWRIGHT_TEXT("in warm water"));
  return set_up.title;  // "Position: run"
}

/// Whether nothing ever leads from one probe to the other, whatever is wrong and whatever is done: a terminal that
/// parts of these ratings lack.
bool leads_nowhere(const FaultTable& table) {
  return std::all_of(table.rows.begin() + 1, table.rows.end(), [](const std::vector<std::string>& row) {
    return std::all_of(row.begin() + 1, row.end(), [](const std::string& shown) { return shown == "OL"; });
  });
}

/// Leaves out the states in which nothing reads otherwise than as found, whatever is wrong.
void drop_idle_columns(const Appliance& table, FaultTable& made) {
  constexpr std::size_t as_found = 1;
  for (std::size_t set_up = table.set_ups.size(); set_up-- > 0;) {
    const std::size_t column = as_found + 1 + set_up;
    const bool is_idle = table.set_ups[set_up].temperatures.empty() &&
                         std::all_of(made.rows.begin() + 1, made.rows.end(),
                                     [&](const auto& row) { return row[column] == row[as_found]; });
    if (!is_idle) continue;
    for (std::vector<std::string>& row : made.rows) row.erase(row.begin() + static_cast<std::ptrdiff_t>(column));
  }
}

/// Whether the kind says what the part of the table is in that state; it does not where ratings are missing.
bool is_modelled(const Appliance& table, std::uint16_t fault, std::optional<std::size_t> set_up) {
  const Conduction conduction = conduction_of(table, 0, fault, set_up, Excitation::ohmmeter);
  return !conduction.elements.empty() || conduction.conducting.empty();
}

}  // namespace

std::vector<FaultTable> fault_tables(const Bench& bench, const Meter& meter, const Sentences& say) {
  const Appliance& table = bench.appliance;
  locate::PriorSettings one_at_a_time;
  one_at_a_time.most_faults = 1;
  const locate::FaultList faults(table, one_at_a_time);
  locate::ReadingModel as_drawn;  // at the bench every set-up takes
  as_drawn.set_up_missed = as_drawn.temperature_missed = 0.0;
  locate::Prober prober(faults, locate::site_as_found(table), meter, as_drawn);
  const std::string not_modelled = table.parts.front().ratings.empty()
                                       ? say(OHMWRIGHT_TEXT("not known without ratings"))
                                       : say(OHMWRIGHT_TEXT("not known"));
  std::vector<FaultTable> tables;
  for (std::size_t point = 0; point < bench.test_points; ++point) {
    FaultTable made;
    made.title = table.test_points[point].title;
    made.rows.push_back({say(OHMWRIGHT_TEXT("the part is")), say(OHMWRIGHT_TEXT("at 21 °C"))});
    for (const SetUp& set_up : table.set_ups) made.rows.front().push_back(column_title(set_up, say));
    for (const locate::Candidate& candidate : faults.candidates()) {
      if (candidate.outside_cause) continue;
      std::vector<std::string> row{candidate.nothing_wrong() ? say(OHMWRIGHT_TEXT("good"))
                                                             : fault_title(faults, candidate.faults.front(), say)};
      const std::uint16_t fault =
          candidate.nothing_wrong() ? not_found : faults.faults()[candidate.faults.front()].fault.fault;
      const auto shown = [&](std::optional<std::size_t> set_up) {
        return is_modelled(table, fault, set_up) ? shown_there(prober, candidate, {point, set_up}, say) : not_modelled;
      };
      row.push_back(shown(std::nullopt));
      for (std::size_t set_up = 0; set_up < table.set_ups.size(); ++set_up) row.push_back(shown(set_up));
      made.rows.push_back(std::move(row));
    }
    if (leads_nowhere(made)) continue;
    drop_idle_columns(table, made);
    tables.push_back(std::move(made));
  }
  return tables;
}

std::vector<std::string> fault_symptoms(const Bench& bench, const Sentences& say) {
  std::vector<std::string> lines;
  for (const PlacedPart& part : bench.appliance.parts) {
    const Descriptor& descriptor = part.kind->descriptor();
    for (const FaultModeDescriptor& mode : descriptor.fault_modes) {
      std::vector<std::string> seen;
      for (const SymptomEffect& effect : mode.symptoms) {
        const std::string id(effect.symptom);
        const std::string text = symptom_text(bench.appliance, id, say);
        seen.push_back((text == id ? in_words(id, say) : text) + " (" + percent_text(effect.probability) + ")");
      }
      lines.push_back(say(OHMWRIGHT_TEXT("{fault}: {symptoms}"),
                          {{"fault", say.in_domain(descriptor.text_domain, mode.title)},
                           {"symptoms", seen.empty() ? say(OHMWRIGHT_TEXT("nothing that is seen")) : listed(seen)}}));
    }
  }
  return lines;
}

}  // namespace ohmwright::course
