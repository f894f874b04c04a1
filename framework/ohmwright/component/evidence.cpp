#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>
#include <string>
#include <string_view>
#include <utility>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/evidence/refused_values.hpp>
#include <ohmwright/component/evidence/source_list.hpp>
#include <ohmwright/component/evidence_parts.hpp>
#include <ohmwright/component/swapped_probes.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/print.hpp>

namespace ohmwright {

namespace {

const double sqrt3 = std::sqrt(3.0);

}  // namespace

/// Builds an `Evidence`, reading by reading.
class EvidenceBuilder {
 public:
  EvidenceBuilder(Evidence& evidence, const Descriptor& descriptor, std::span<const Reading> readings,
                  const MeterSet& meters)
      : evidence_(evidence),
        descriptor_(descriptor),
        readings_(readings),
        meters_(meters),
        sources_(evidence.sources_, readings.size()) {}

  /// What the evidence held before is gone; its memory serves again, that of its texts, too.
  void build() {
    constexpr std::size_t usual_sources = 4;  // of a reading: its meter, leads, temperature, and one more
    evidence_.sources_.reserve(1 + descriptor_.error_sources.size() +
                               usual_sources * std::min<std::size_t>(readings_.size(), 64));
    evidence_.prepared_.clear();
    evidence_.prepared_.reserve(readings_.size());
    evidence_.labels_.resize(readings_.size());
    sources_.add("model", "", Shape::rectangular);                      // Evidence::model_source
    for (const ErrorSourceDescriptor& own : descriptor_.error_sources)  // Evidence::own_source
      sources_.add(own.id, "", own.shape);
    count_users();
    for (std::size_t i = 0; i < readings_.size(); ++i) add(readings_[i], i);
    sources_.finish();
    set_contradicting_aside();
  }

  static EvidenceParts parts_of(const Evidence& evidence) {
    return {evidence.prepared_, evidence.sources_, evidence.labels_};
  }
  static void put(EvidenceParts parts, Evidence& evidence) {
    evidence.prepared_ = std::move(parts.readings);
    evidence.sources_ = std::move(parts.sources);
    evidence.labels_ = std::move(parts.labels);
  }

 private:
  void set_contradicting_aside() {
    for (const SwappedPair& pair : swapped_that_contradict(descriptor_, evidence_.prepared_)) {
      evidence_.prepared_[pair.plain].measurand = not_found;
      evidence_.prepared_[pair.swapped].measurand = not_found;
    }
  }

  void add(const Reading& reading, std::size_t index) {
    std::string& label = evidence_.labels_[index];
    if (reading.label.empty())
      label = "reading " + std::to_string(index + 1);
    else if (label != reading.label)
      label = reading.label;
    if (index > std::numeric_limits<std::uint16_t>::max()) refuse_so_many(readings_.size());
    PreparedReading& prepared = evidence_.prepared_.emplace_back(static_cast<std::uint16_t>(index));
    prepared.measurand = index_of(descriptor_.measurands, reading.measurand);
    if (prepared.measurand == not_found)
      throw InputError(label + ": a " + std::string(descriptor_.id) + " has no measurand \"" + reading.measurand +
                       "\"");
    prepared.connection = reading.connection;
    prepared.moisture = reading.moisture;
    prepared.supply = reading.supply;
    observe(reading, prepared, label);
    for (const Condition& condition : reading.conditions) add_condition(condition, prepared, label);
    for (const NamedState& state : reading.states) add_state(state, prepared, label);
  }

  void observe(const Reading& reading, PreparedReading& prepared, const std::string& label) {
    const Meter& meter = meters_.named(reading.meter);
    const Dimension dimension = descriptor_.measurands[prepared.measurand].dimension;
    if (dimension == Dimension::resistance && meter.low_impedance)
      throw InputError(label + ": the meter \"" + meter.name +
                       "\" is in its low-impedance mode, which reads no resistance; choose its ohms mode");
    const MeterFunction* function = function_of(reading, meter, dimension);
    if (dimension == Dimension::resistance && !(function != nullptr && function->tests_insulation)) {
      const StatedValue& leads = reading.leads.value_or(meter.lead_resistance);
      const std::optional<double> half_width = leads.half_width ? leads.half_width : meter.lead_resistance.half_width;
      prepared.lead_resistance = leads.value.value_in_si();
      prepared.lead_half_width = usable(half_width.value_or(0.0), dimension, label, "the test leads'");
    }
    if (const auto* contact = std::get_if<ContactState>(&reading.observed)) {
      prepared.shown = *contact == ContactState::open ? Shown::contact_open : Shown::contact_closed;
    } else if (const auto* over = std::get_if<OverRange>(&reading.observed)) {
      prepared.shown = Shown::over_range;
      prepared.range_full_scale = full_scale(reading, *over, meter, function, label);
    } else {
      prepared.shown = Shown::value;
      refuse_milliohms(std::get<StatedValue>(reading.observed), descriptor_.measurands[prepared.measurand], label);
      estimate(reading, std::get<StatedValue>(reading.observed), meter, function, prepared, label);
    }
  }

  /// Insulation and ohms are two functions; what was read with a tester's volts on a meter that is said to be none
  /// keeps the accuracy of its ohms.
  static const MeterFunction* function_of(const Reading& reading, const Meter& meter, Dimension dimension) {
    if (dimension == Dimension::resistance && states_test_voltage(reading))
      if (const MeterFunction* tester = function_for(meter, dimension, true)) return tester;
    return function_for(meter, dimension);
  }

  /// What over-range means "more than": what the display named, the range that was set, else the largest that shows its
  /// values with the unit that stood beside OL, else the largest of a meter that tries them all; 0 where the user turns
  /// to a range and did not say which.
  static double full_scale(const Reading& reading, const OverRange& over, const Meter& meter,
                           const MeterFunction* function, const std::string& label) {
    if (function == nullptr || function->ranges.empty()) return 0.0;
    const double largest = function->ranges.back().full_scale.value_in_si();
    if (const std::optional<AnyQuantity>& end = over.more_than ? over.more_than : reading.range) {
      if (end->value_in_si() > largest * (1.0 + 1e-9))
        throw InputError(label + ": the meter \"" + meter.name + "\" has no range of " + display_text(*end) +
                         "; its largest is " + display_text(function->ranges.back().full_scale));
      return end->value_in_si();
    }
    if (!over.unit) return meter.sets_range_itself ? largest : 0.0;
    const double first_not_shown = 1000.0 * over.unit->to_si(1.0);
    double shown = 0.0;
    for (const MeterRange& range : function->ranges)
      if (range.full_scale.value_in_si() < first_not_shown) shown = range.full_scale.value_in_si();
    return shown;
  }

  void estimate(const Reading& reading, const StatedValue& stated, const Meter& meter, const MeterFunction* function,
                PreparedReading& prepared, const std::string& label) {
    const AnyQuantity shown = mean_of(reading, stated);
    prepared.displayed = shown.value_in_si();
    prepared.value = Estimate(shown.value_in_si());
    if (stated.half_width) prepared.meter_half_width = usable(*stated.half_width, shown.dimension(), label);
    if (stated.half_width)
      prepared.value.add_term(source_of_digits("stated-uncertainty", reading, shown, *stated.half_width, label),
                              *stated.half_width / sqrt3);
    else if (shown.dimension() == Dimension::duration && function == nullptr)
      add_watch_error(prepared, label);
    else
      add_meter_error(reading, shown, meter, function, prepared, label);
    add_scatter(reading, stated, prepared, label);
    if (shown.dimension() == Dimension::resistance) subtract_leads(meter, prepared);
  }

  static AnyQuantity mean_of(const Reading& reading, const StatedValue& stated) {
    const double sum = std::accumulate(reading.repeats.begin(), reading.repeats.end(), stated.value.value_in_si());
    return {stated.value.dimension(), sum / static_cast<double>(reading.repeats.size() + 1)};
  }

  /// A specification bounds percent and counts together: a lone reading gets that bound as one rectangle. Where
  /// readings share the meter, the percent part is the gain error that they share; the rest keeps what is left of the
  /// variance, so that sharing says how readings move together and never makes one of them surer.
  void add_meter_error(const Reading& reading, AnyQuantity shown, const Meter& meter, const MeterFunction* function,
                       PreparedReading& prepared, const std::string& label) {
    if (reading.range && std::abs(shown.value_in_si()) > reading.range->value_in_si() * (1.0 + 1e-9))
      throw InputError(label + ": " + exact_text(shown) + " cannot be shown on a range of " +
                       exact_text(*reading.range) +
                       "; name the range that was set, or write what the meter showed (OL)");
    const MeterRange* range = function == nullptr ? nullptr : range_for(*function, reading.range, shown);
    if (range == nullptr)
      throw InputError(label + ": " + no_accuracy(reading, std::get<StatedValue>(reading.observed), meter, function));
    if (reading.range && shown.value_in_si() != 0.0 &&
        std::abs(shown.value_in_si()) < 0.5 * range->resolution.value_in_si())
      throw InputError(label + ": " + exact_text(shown) + " cannot be shown on a range of " +
                       display_text(*reading.range) + ", whose last digit is " + display_text(range->resolution) +
                       "; name the range that was set");
    prepared.range_full_scale = range->full_scale.value_in_si();
    const double bound =
        usable(accuracy_half_width(*range, shown.value_in_si()), shown.dimension(), label, "the meter's");
    prepared.meter_half_width = bound;
    if (!shares_meter(reading, shown.dimension())) {
      prepared.value.add_term(sources_.add("meter-accuracy", label, Shape::rectangular), bound / sqrt3);
      return;
    }
    const double gain = range->percent_of_reading / 100.0 * shown.value_in_si();  // with its sign
    const double rest = std::sqrt(bound * bound - gain * gain);
    const std::string of = meter.name + ", " + std::string(name_of(shown.dimension()));
    prepared.value.add_term(sources_.shared("meter-gain", of, Shape::rectangular), gain / sqrt3);
    prepared.value.add_term(source_of_digits("meter-counts", reading, shown, rest, label), rest / sqrt3);
  }

  /// No meter shows a duration: who notes one looks at a watch.
  void add_watch_error(PreparedReading& prepared, const std::string& label) {
    prepared.meter_half_width = watch_half_width;
    prepared.value.add_term(sources_.add("watch", label, Shape::rectangular), watch_half_width / sqrt3);
  }

  std::string no_accuracy(const Reading& reading, const StatedValue& stated, const Meter& meter,
                          const MeterFunction* function) const {
    const std::string dimension(phrase_of(stated.value.dimension()));
    DisplayOptions as_typed;
    as_typed.fixed_unit = stated.unit;
    const std::string shown = display_text(stated.value, as_typed);
    if (function == nullptr)
      return "the meter \"" + meter.name + "\" does not say how well it reads " + dimension +
             "; name the instrument that read it (--meter), or write the value with its uncertainty, such as \"" +
             shown + " ± …\"";
    const std::string largest = display_text(function->ranges.back().full_scale);
    std::string text = "the meter \"" + meter.name + "\" shows " + dimension + " up to " + largest + ", not " + shown;
    if (is_read_by_tester(reading) && !states_test_voltage(reading))
      return text + "; if a tester of insulation read it, say its volts (--test 500V); if an ohmmeter did, write OL";
    return text + "; name the meter that read it (--meter), or write what it showed (OL)";
  }

  /// Whether the kind takes the volts of a tester with what was read here.
  bool is_read_by_tester(const Reading& reading) const {
    const std::uint16_t index = index_of(descriptor_.conditions, test_voltage_condition);
    if (index == not_found) return false;
    const std::vector<std::string_view>& of = descriptor_.conditions[index].of;
    return std::find(of.begin(), of.end(), reading.measurand) != of.end();
  }

  /// Counts the readings whose error is their meter's, by meter and dimension; one alone shares its meter with none.
  void count_users() {
    if (readings_.size() < 2) return;
    for (const Reading& reading : readings_)
      if (const auto* stated = std::get_if<StatedValue>(&reading.observed); stated != nullptr && !stated->half_width)
        ++users_[{&meters_.named(reading.meter), stated->value.dimension()}];
  }

  bool shares_meter(const Reading& reading, Dimension dimension) const {
    const auto found = users_.find({&meters_.named(reading.meter), dimension});
    return found != users_.end() && found->second > 1;
  }

  /// Standard deviation of the mean of repeated readings, with its degrees of freedom (GUM 4.2.3).
  void add_scatter(const Reading& reading, const StatedValue& stated, PreparedReading& prepared,
                   const std::string& label) {
    if (reading.repeats.empty()) return;
    const double mean = prepared.displayed;
    const auto squared = [mean](double x) { return (x - mean) * (x - mean); };
    double sum = squared(stated.value.value_in_si());
    for (const double x : reading.repeats) sum += squared(x);
    if (sum == 0.0) return;  // the same digits each time: the counts already say all that is known
    const auto n = static_cast<double>(reading.repeats.size() + 1);
    const double scatter = std::sqrt(sum / (n - 1.0) / n);
    const SourceIndex source =
        source_of_digits("repeatability", reading, {stated.value.dimension(), mean}, scatter, label);
    sources_[source].shape = Shape::student_t;
    sources_[source].degrees_of_freedom = n - 1.0;
    prepared.value.add_term(source, usable(scatter, stated.value.dimension(), label, "the repeats'"));
  }

  void subtract_leads(const Meter& meter, PreparedReading& prepared) {
    prepared.value.shift(-prepared.lead_resistance);
    if (prepared.lead_half_width > 0.0)
      prepared.value.add_term(sources_.shared("lead-resistance", meter.name, Shape::rectangular),
                              -prepared.lead_half_width / sqrt3);
  }

  void add_condition(const Condition& condition, PreparedReading& prepared, const std::string& label) {
    const std::uint16_t index = index_of(descriptor_.conditions, condition.id);
    if (index == not_found)
      throw InputError(label + ": a " + std::string(descriptor_.id) + " knows no condition \"" + condition.id + "\"");
    const Dimension dimension = descriptor_.conditions[index].dimension;
    if (condition.value.value.dimension() != dimension)
      throw InputError(label + ": " + condition.id + " is " + std::string(phrase_of(dimension)) + ", not " +
                       std::string(phrase_of(condition.value.value.dimension())));
    refuse_too_many_test_volts(condition, label);
    const double half_width =
        usable(condition.value.half_width.value_or(descriptor_.conditions[index].default_half_width),
               condition.value.value.dimension(), label, condition.id);
    // One temperature typed with each of several readings was taken by one thermometer: they share its error, but for a
    // wet and a dry one, between which the part was handled. A label only names a reading for people.
    const bool own = condition.error_source.empty();
    const double kept = condition.value.value.value_in_si();
    Estimate value(kept);
    if (half_width > 0.0)
      value.add_term(
          own ? sources_.of_same({condition.id, prepared.moisture == Moisture::wet ? "wet" : "", {}, kept, half_width},
                                 label)
              : sources_.shared(condition.id, condition.error_source, Shape::rectangular),
          half_width / sqrt3);
    if (prepared.conditions.size() == prepared.conditions.capacity())
      throw InputError(label + ": more conditions than a reading can carry (" +
                       std::to_string(prepared.conditions.capacity()) + ")");
    prepared.conditions.push_back({index, value});
  }

  void add_state(const NamedState& named, PreparedReading& prepared, const std::string& label) {
    const std::uint16_t state = index_of(descriptor_.states, named.state);
    if (state == not_found)
      throw InputError(label + ": a " + std::string(descriptor_.id) + " has no state \"" + named.state + "\"");
    const std::uint16_t value = index_of(descriptor_.states[state].values, named.value);
    if (value == not_found) throw InputError(label + ": " + named.state + " cannot be \"" + named.value + "\"");
    if (prepared.state(state)) throw InputError(label + ": " + named.state + " is stated twice");
    prepared.states.push_back({state, value});
  }

  /// The error of digits that a meter showed. The same digits again say nothing new: they keep the error they had, so
  /// that a reading typed ten times is as sure as one.
  SourceIndex source_of_digits(std::string_view id, const Reading& reading, AnyQuantity shown, double half_width,
                               const std::string& label) {
    return sources_.of_same({id, reading.measurand, meters_.named(reading.meter).name, shown.value_in_si(), half_width},
                            label);
  }

  Evidence& evidence_;
  const Descriptor& descriptor_;
  std::span<const Reading> readings_;
  const MeterSet& meters_;
  std::map<std::pair<const Meter*, Dimension>, int> users_;
  SourceList sources_;
};

Evidence::Evidence(const Descriptor& descriptor, std::span<const Reading> readings, const MeterSet& meters) {
  EvidenceBuilder(*this, descriptor, readings, meters).build();
}

void prepare_again(Evidence& evidence, const Descriptor& descriptor, std::span<const Reading> readings,
                   const MeterSet& meters) {
  EvidenceBuilder(evidence, descriptor, readings, meters).build();
}

EvidenceParts parts_of(const Evidence& evidence) { return EvidenceBuilder::parts_of(evidence); }

Evidence evidence_of(EvidenceParts parts) {
  for (const PreparedReading& reading : parts.readings)
    if (reading.reading >= parts.labels.size()) throw Error(ErrorCategory::internal, "evidence without its labels");
  const StatedValue no_leads{AnyQuantity(Dimension::resistance, 0.0), 0.0, Unit::si(Dimension::resistance)};
  Evidence evidence({}, {}, MeterSet({Meter{"", "", "", {}, no_leads}}));
  EvidenceBuilder::put(std::move(parts), evidence);
  return evidence;
}

}  // namespace ohmwright
