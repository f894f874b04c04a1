#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>

#include <ohmwright/appliance/conduction.hpp>
#include <ohmwright/course/explain.hpp>
#include <ohmwright/course/reader_words.hpp>
#include <ohmwright/locate/leak_to_earth.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_report.hpp>
#include <ohmwright/report/locate_words.hpp>

namespace ohmwright::course {

namespace {

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

/// Above a column of a table: where the part lies, and how warm it is there.
std::string column_title(const SetUp& set_up, const Sentences& say) {
  if (set_up.temperatures.empty()) return set_up.title;  // "Position: run", as warm as the table
  const std::string at = say.stated(set_up.temperatures.front().temperature);
  if (set_up.id == ice_water) return say(OHMWRIGHT_TEXT("in ice water, {at}"), {{"at", at}});
  if (set_up.id == salted_ice) return say(OHMWRIGHT_TEXT("in salted ice, {at}"), {{"at", at}});
  if (set_up.id == warm_water) return say(OHMWRIGHT_TEXT("in warm water, {at}"), {{"at", at}});
  return set_up.title;
}

std::string title_as_found(const Appliance& table, const Sentences& say) {
  return say(OHMWRIGHT_TEXT("at {at}"), {{"at", say.stated(table.zones.front().temperature)}});
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
    for (std::vector<std::optional<ShownSpan>>& row : made.spans)
      row.erase(row.begin() + static_cast<std::ptrdiff_t>(column - 1));
  }
}

/// Whether the kind says what the part of the table is in that state; it does not where ratings are missing.
bool is_modelled(const Appliance& table, std::uint16_t fault, std::optional<std::size_t> set_up) {
  const Conduction conduction = conduction_of(table, 0, fault, set_up, Excitation::ohmmeter);
  return !conduction.elements.empty() || conduction.conducting.empty();
}

}  // namespace

namespace {

/// What a part on the table may be, one fault at a time, and what is read of it there: at the bench every set-up takes.
class Explainer {
 public:
  /// Both must outlive it.
  Explainer(const Bench& bench, const Meter& meter)
      : bench_(bench), meter_(meter), faults_(bench.appliance, one_at_a_time()) {
    for (const locate::Candidate& candidate : faults_.candidates())
      if (!candidate.outside_cause) candidates_.push_back(&candidate);
  }

  /// Good first.
  std::span<const locate::Candidate* const> candidates() const { return candidates_; }
  std::string title_of(const locate::Candidate& candidate, const Sentences& say) const {
    return candidate.nothing_wrong() ? say(OHMWRIGHT_TEXT("good"))
                                     : fault_title(faults_, candidate.faults.front(), say);
  }
  /// Nothing where the kind does not say what such a part is.
  std::optional<ShownSpan> span_of(const locate::Candidate& candidate, const locate::Measurement& measurement) const {
    const std::uint16_t fault =
        candidate.nothing_wrong() ? not_found : faults_.faults()[candidate.faults.front()].fault.fault;
    if (!is_modelled(bench_.appliance, fault, measurement.set_up)) return std::nullopt;
    return shown_span(bench_, meter_, faults_, candidate, measurement);
  }

 private:
  static locate::PriorSettings one_at_a_time() {
    locate::PriorSettings settings;
    settings.most_faults = 1;
    return settings;
  }

  const Bench& bench_;
  const Meter& meter_;
  locate::FaultList faults_;
  std::vector<const locate::Candidate*> candidates_;
};

}  // namespace

std::vector<FaultTable> fault_tables(const Bench& bench, const Meter& meter, const Sentences& say) {
  const Appliance& table = bench.appliance;
  const Explainer explainer(bench, meter);
  const std::string not_modelled = table.parts.front().ratings.empty()
                                       ? say(OHMWRIGHT_TEXT("not known without ratings"))
                                       : say(OHMWRIGHT_TEXT("not known"));
  std::vector<FaultTable> tables;
  for (std::size_t point = 0; point < bench.test_points; ++point) {
    FaultTable made;
    made.test_point = point;
    made.title = table.test_points[point].title;
    made.rows.push_back({say(OHMWRIGHT_TEXT("the part is")), title_as_found(table, say)});
    for (const SetUp& set_up : table.set_ups) made.rows.front().push_back(column_title(set_up, say));
    for (const locate::Candidate* candidate : explainer.candidates()) {
      std::vector<std::string> row{explainer.title_of(*candidate, say)};
      std::vector<std::optional<ShownSpan>> spans{explainer.span_of(*candidate, {point, {}})};
      for (std::size_t set_up = 0; set_up < table.set_ups.size(); ++set_up)
        spans.push_back(explainer.span_of(*candidate, {point, set_up}));
      for (const std::optional<ShownSpan>& span : spans)
        row.push_back(span ? span_text(*span, meter, say) : not_modelled);
      made.rows.push_back(std::move(row));
      made.spans.push_back(std::move(spans));
    }
    if (leads_nowhere(made)) continue;
    drop_idle_columns(table, made);
    tables.push_back(std::move(made));
  }
  return tables;
}

std::vector<std::vector<std::optional<ShownSpan>>> spans_by_temperature(const Bench& bench, const Meter& meter,
                                                                        std::size_t test_point,
                                                                        std::span<const double> kelvin) {
  Bench along = bench;
  Appliance& table = along.appliance;
  table.set_ups.clear();
  for (const double one : kelvin) {
    SetUp& set_up = table.set_ups.emplace_back();
    set_up.id = "at-" + std::to_string(table.set_ups.size());
    set_up.temperatures.push_back(
        {0, {AnyQuantity(Dimension::temperature, one), 0.0, Unit::si(Dimension::temperature)}});
  }
  const Explainer explainer(along, meter);
  std::vector<std::vector<std::optional<ShownSpan>>> all;
  for (const locate::Candidate* candidate : explainer.candidates()) {
    std::vector<std::optional<ShownSpan>>& spans = all.emplace_back();
    for (std::size_t set_up = 0; set_up < kelvin.size(); ++set_up)
      spans.push_back(explainer.span_of(*candidate, {test_point, set_up}));
  }
  return all;
}

std::vector<std::string> fault_symptoms(const Bench& bench, const Sentences& say) {
  std::vector<std::string> lines;
  bool may_trip = false;
  for (std::size_t part = 0; part < bench.appliance.parts.size(); ++part) {
    const Descriptor& descriptor = bench.appliance.parts[part].kind->descriptor();
    for (std::uint16_t fault = 0; fault < descriptor.fault_modes.size(); ++fault) {
      if (!conduction_of(bench.appliance, part, fault, {}, Excitation::ohmmeter).can_be) continue;
      const FaultModeDescriptor& mode = descriptor.fault_modes[fault];
      std::vector<std::string> seen;
      for (const SymptomEffect& effect : mode.symptoms) {
        const std::string id(effect.symptom);
        may_trip = may_trip || id == locate::trips_residual_current_device;
        const std::string text = symptom_text(bench.appliance, id, say);
        seen.push_back((text == id ? in_words(id, say) : text) + " (" + percent_text(effect.probability) + ")");
      }
      lines.push_back(say(OHMWRIGHT_TEXT("{fault}: {symptoms}"),
                          {{"fault", say.in_domain(descriptor.text_domain, mode.title)},
                           {"symptoms", seen.empty() ? say(OHMWRIGHT_TEXT("nothing that is seen")) : listed(seen)}}));
    }
  }
  if (may_trip) lines.push_back(say(about_leaks_that_trip()));
  return lines;
}

}  // namespace ohmwright::course
