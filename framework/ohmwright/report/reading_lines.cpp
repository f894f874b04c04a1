#include <algorithm>
#include <cmath>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/reading_lines.hpp>

namespace ohmwright {

namespace {

constexpr std::size_t most_readings_shown = 12;  // of a longer series the first ones and the last
constexpr std::size_t first_readings_shown = 3;

/// Writes the lines of one report's readings.
class ReadingLines {
 public:
  ReadingLines(const VerdictReport& report, const Sentences& sentences, Audience audience)
      : report_(report), say_(sentences), names_options_(audience == Audience::who_types) {}

  std::vector<std::string> write() const {
    std::vector<std::string> lines;
    const std::size_t count = report_.readings.size();
    for (std::size_t i = 0; i < count; ++i) {
      if (count > most_readings_shown && i == first_readings_shown) {
        lines.push_back(
            say_(OHMWRIGHT_TEXT("… {count} more …"), {{"count", std::to_string(count - first_readings_shown - 1)}}));
        i = count - 1;
      }
      lines.push_back(reading_line(report_.readings[i], i));
    }
    if (skin_matters())
      lines.push_back(
          say_(OHMWRIGHT_TEXT("above 10 kΩ keep your fingers off the probe tips: skin lies beside the part")));
    meter_lines(lines);
    return lines;
  }

 private:
  void meter_lines(std::vector<std::string>& lines) const {
    if (is_usual_meter_used()) lines.push_back(say_(meter_pattern(), {{"meter", report_.meter_title}}));
    for (const OtherInstrument& other : report_.other_instruments)
      lines.push_back(
          say_(instrument_pattern(other), {{"measurand", title_of(other.measurand)}, {"meter", other.title}}));
  }

  std::string_view meter_pattern() const {
    if (!report_.meter_assumed) return OHMWRIGHT_TEXT("meter: {meter}");
    return names_options_ ? OHMWRIGHT_TEXT("meter: {meter} (assumed; name yours with --meter)")
                          : OHMWRIGHT_TEXT("meter: {meter} (assumed)");
  }

  std::string_view instrument_pattern(const OtherInstrument& other) const {
    if (!other.assumed) return OHMWRIGHT_TEXT("{measurand}, read with: {meter}");
    return names_options_ ? OHMWRIGHT_TEXT("{measurand}, read with: {meter} (assumed; name yours with --meter)")
                          : OHMWRIGHT_TEXT("{measurand}, read with: {meter} (assumed)");
  }

  bool is_usual_meter_used() const {
    return std::any_of(report_.readings.begin(), report_.readings.end(),
                       [](const Reading& reading) { return reading.meter.empty(); });
  }

  /// By its name: what was set aside has lost its measurand.
  const MeasurandDescriptor& measurand_of(const Reading& reading) const {
    return report_.descriptor.measurands[index_of(report_.descriptor.measurands, reading.measurand)];
  }

  std::string title_of(const std::string& measurand) const {
    const std::uint16_t index = index_of(report_.descriptor.measurands, measurand);
    return say_.in_domain(report_.descriptor.text_domain, report_.descriptor.measurands[index].title);
  }

  /// Skin is some hundred kilohms to a few megohms: from 10 kΩ on it spoils a reading (common practice, no source).
  bool skin_matters() const {
    constexpr double least_ohms = 10e3;
    const auto prepared = report_.evidence.readings();
    return std::any_of(prepared.begin(), prepared.end(), [this](const PreparedReading& reading) {
      const bool ohms = measurand_of(report_.readings[reading.reading]).dimension == Dimension::resistance;
      return ohms && reading.shown == Shown::value && reading.displayed >= least_ohms;
    });
  }

  std::string reading_line(const Reading& reading, std::size_t index) const {
    const PreparedReading& prepared = report_.evidence.readings()[index];
    const MeasurandDescriptor& measurand = measurand_of(reading);
    std::string line =
        say_.in_domain(report_.descriptor.text_domain, measurand.title) + ": " + shown(reading, prepared);
    if (!reading.repeats.empty()) {
      line += repeats(reading, measurand.dimension);
      line += say_(OHMWRIGHT_TEXT(", read {count} times, mean {mean}"),
                   {{"count", std::to_string(reading.repeats.size() + 1)},
                    {"mean", say_.quantity({measurand.dimension, prepared.displayed})}});
    }
    const Sentences in_ohms{UnitPreferences{}};  // also where megohms were typed beside
    if (reading.leads && reading.leads->value.value_in_si() == 0.0)
      line += say_(OHMWRIGHT_TEXT(" (meter zeroed with its leads)"));
    else if (leads_matter(prepared))
      line += in_ohms(OHMWRIGHT_TEXT(" ({leads} of leads taken off)"),
                      {{"leads", AnyQuantity(Dimension::resistance, prepared.lead_resistance)}});
    for (const Condition& condition : reading.conditions) line += "; " + condition_text(condition);
    return line + circumstances(reading);
  }

  /// The other values of the same thing; of many the first few.
  std::string repeats(const Reading& reading, Dimension dimension) const {
    constexpr std::size_t most_shown = 6;
    std::string list;
    for (std::size_t i = 0; i < std::min(most_shown, reading.repeats.size()); ++i)
      list += ", " + say_.quantity({dimension, reading.repeats[i]});
    return reading.repeats.size() > most_shown ? list + ", …" : list;
  }

  /// Whether what the leads add is seen in the digits that are shown: the sentences above speak of what is left.
  bool leads_matter(const PreparedReading& prepared) const {
    if (prepared.shown != Shown::value || !(prepared.lead_resistance > 0.0)) return false;
    const auto ohms = [this](double value) { return say_.quantity({Dimension::resistance, value}); };
    return ohms(prepared.displayed) != ohms(prepared.displayed - prepared.lead_resistance);
  }

  /// Which range went over is an assumption unless it was said.
  std::string over_range(const Reading& reading, const PreparedReading& prepared) const {
    if (!(prepared.range_full_scale > 0.0))
      return say_(names_options_ ? OHMWRIGHT_TEXT("OL, on a range that was not said (--range)")
                                 : OHMWRIGHT_TEXT("OL, on a range that was not said"));
    const Dimension dimension = measurand_of(reading).dimension;
    const FindingArgument range{"range", AnyQuantity(dimension, prepared.range_full_scale)};
    if (std::get<OverRange>(reading.observed).more_than) return say_(OHMWRIGHT_TEXT("more than {range}"), {range});
    if (reading.range || std::get<OverRange>(reading.observed).unit)
      return say_(OHMWRIGHT_TEXT("OL on the range to {range}"), {range});
    return say_(names_options_
                    ? OHMWRIGHT_TEXT("OL, taken as past {range}, the meter's largest range (--range names another)")
                    : OHMWRIGHT_TEXT("OL, taken as past {range}, the meter's largest range"),
                {range});
  }

  static bool is_off_a_watch(const StatedValue& stated, const PreparedReading& prepared) {
    return stated.value.dimension() == Dimension::duration && !stated.half_width &&
           prepared.meter_half_width == watch_half_width;
  }

  std::string shown(const Reading& reading, const PreparedReading& prepared) const {
    if (std::holds_alternative<OverRange>(reading.observed)) return over_range(reading, prepared);
    if (const auto* contact = std::get_if<ContactState>(&reading.observed))
      return *contact == ContactState::open ? say_(OHMWRIGHT_TEXT("open")) : say_(OHMWRIGHT_TEXT("closed"));
    const auto& stated = std::get<StatedValue>(reading.observed);
    std::string text = say_.stated(stated);
    if (stated.unit_assumed) text += say_(OHMWRIGHT_TEXT(" (unit assumed)"));
    if (is_off_a_watch(stated, prepared)) text += say_(OHMWRIGHT_TEXT(" (read to the minute, assumed)"));
    return text;
  }

  std::string condition_text(const Condition& condition) const {
    const std::uint16_t index = index_of(report_.descriptor.conditions, condition.id);
    const ConditionDescriptor& descriptor = report_.descriptor.conditions[index];
    std::string text =
        say_.in_domain(report_.descriptor.text_domain, descriptor.title) + " " + say_.stated(condition.value);
    if (condition.uncertainty_assumed) text += say_(OHMWRIGHT_TEXT(" (doubt assumed)"));
    return text;
  }

  std::string state_text(const NamedState& named) const {
    const std::uint16_t state = index_of(report_.descriptor.states, named.state);
    const std::vector<TextEntry>& values = report_.descriptor.states[state].values;
    return say_.in_domain(report_.descriptor.text_domain, values[index_of(values, named.value)].english);
  }

  /// How fast it turns, its pulses and a time are read on no lead of the part: off or not, it says nothing of them.
  bool has_leads_to_lift(const Reading& reading) const {
    const auto& measurands = report_.descriptor.measurands;
    const Dimension dimension = measurands[index_of(measurands, reading.measurand)].dimension;
    return dimension != Dimension::rotational_speed && dimension != Dimension::frequency &&
           dimension != Dimension::duration;
  }

  std::string circumstances(const Reading& reading) const {
    std::string text;
    const auto add = [&](std::string_view english) { text += ", " + say_(english); };
    const bool has_leads = has_leads_to_lift(reading);
    if (has_leads && reading.connection == Connection::lead_off) add(OHMWRIGHT_TEXT("lead off"));
    if (has_leads && reading.connection == Connection::in_circuit) add(OHMWRIGHT_TEXT("in circuit"));
    if (reading.moisture == Moisture::wet) add(OHMWRIGHT_TEXT("wet"));
    if (reading.moisture == Moisture::dry) add(OHMWRIGHT_TEXT("dried"));
    if (reading.supply == Supply::live) add(OHMWRIGHT_TEXT("live"));
    for (const NamedState& named : reading.states) text += ", " + state_text(named);
    return text;
  }

  const VerdictReport& report_;
  const Sentences& say_;
  bool names_options_;
};

}  // namespace

std::vector<std::string> reading_lines(const VerdictReport& report, const Sentences& sentences, Audience audience) {
  return ReadingLines(report, sentences, audience).write();
}

}  // namespace ohmwright
