#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>
#include <variant>

#include <ohmwright/locate/reading_range.hpp>
#include <ohmwright/locate/weighed_readings.hpp>

namespace ohmwright::locate {

namespace {

/// Repeats agree when they differ by no more than this on the scale, what fingers and contacts do to a good meter, or
/// by no more than so many standard uncertainties of what is another at every reading.
constexpr double agreeing = 0.05;
constexpr double agreeing_uncertainties = 3.0;

/// A slip is rarely made twice in the same way: of readings that agree, the first may be any slip, the others the same
/// one again or, by chance, another that looks alike.
double likelihood_if_misread_alike(const WeighedReading& reading, const ReadingModel& model) {
  const double once = model.misread_share * likelihood_if_misread(reading.seen, reading.probe, model);
  const double by_chance = reading.seen.form == SeenReading::Form::value ? std::min(1.0, 2.0 * agreeing * once) : once;
  const double again = model.same_slip_again + (1.0 - model.same_slip_again) * by_chance;
  const double repeated = std::pow(again, static_cast<double>(reading.given.size() - 1));
  return std::max(once * repeated, std::numeric_limits<double>::min());  // anything may be misread
}

/// The end of the scale stands for OL whose limit nobody gave.
double past_of(const SeenReading& over, Probe probe) {
  const Scale scale = scale_of(probe);
  return over.past.value_or(scale.at(scale.largest));
}

/// Of two that agree, what they say together: a value rather than OL below it, the higher of two limits, the mean.
void take_in(const SeenReading& seen, WeighedReading& into) {
  const bool is_value = seen.form == SeenReading::Form::value;
  if (is_value && into.seen.form != SeenReading::Form::value) {
    into.seen = seen;
    into.values = 1;
  } else if (is_value) {
    const auto count = static_cast<double>(into.values++);
    into.seen.at = (count * into.seen.at + seen.at) / (count + 1.0);
    into.seen.uncertainty = std::min(into.seen.uncertainty, seen.uncertainty);
  } else if (into.seen.form == SeenReading::Form::over_range) {
    into.seen.past = std::max(past_of(into.seen, into.probe), past_of(seen, into.probe));
  }
}

/// By whole powers of two, which change no digit.
void keep_in_range(JointLikelihood& joint) {
  constexpr double far_from_one = 0x1p200;
  if (joint.of_all >= 1.0 / far_from_one && joint.of_all <= far_from_one) return;
  int exponent = 0;
  joint.of_all = std::frexp(joint.of_all, &exponent);
  joint.exponent += exponent;
}

}  // namespace

std::optional<SeenReading> seen_reading(const TakenReading& reading, Probe probe, const Meter& meter) {
  if (reading.any_of) return reading.any_of;
  const Scale scale = scale_of(probe);
  const double leads = probe == Probe::ohms ? meter.lead_resistance.value.value_in_si() : 0.0;
  SeenReading seen;
  if (const auto* stated = std::get_if<StatedValue>(&reading.observed)) {
    const double shown = stated->value.value_in_si();
    const double value = probe == Probe::ohms ? std::max(0.0, shown - leads) : std::abs(shown);
    seen.at = scale.at(value);
    seen.uncertainty = scale.uncertainty_at(value, uncertainty_of_range(meter, probe, std::abs(shown), reading.range));
    seen.of_repeat = scale.uncertainty_at(value, uncertainty_of_repeat(meter, probe, std::abs(shown)));
    return seen;
  }
  if (probe != Probe::ohms) return std::nullopt;
  if (const auto* contact = std::get_if<ContactState>(&reading.observed)) {
    seen.form = *contact == ContactState::open ? SeenReading::Form::does_not_conduct : SeenReading::Form::conducts;
    return seen;
  }
  seen.form = SeenReading::Form::over_range;
  seen.past = scale.at(std::max(0.0, over_range_limit(meter, reading.range).ohm - leads));
  return seen;
}

bool agree(const SeenReading& a, const SeenReading& b) {
  if (a.form == SeenReading::Form::over_range && b.form == SeenReading::Form::value) return a.past && *a.past < b.at;
  if (b.form == SeenReading::Form::over_range && a.form == SeenReading::Form::value) return agree(b, a);
  if (a.form != b.form || a.form == SeenReading::Form::between) return false;
  return a.form != SeenReading::Form::value ||
         std::abs(a.at - b.at) <= std::max(agreeing, agreeing_uncertainties * std::hypot(a.of_repeat, b.of_repeat));
}

bool may_agree(const SeenReading& a, const SeenReading& b) {
  const auto is_range = [](const SeenReading& seen) {
    return seen.form == SeenReading::Form::value || seen.form == SeenReading::Form::between;
  };
  const auto end_of = [](const SeenReading& seen) {
    return seen.form == SeenReading::Form::between ? seen.to : seen.at;
  };
  const bool is_of_a_plan = a.form == SeenReading::Form::between || b.form == SeenReading::Form::between;
  if (!is_of_a_plan) return agree(a, b);
  return is_range(a) && is_range(b) && a.at <= end_of(b) && b.at <= end_of(a);
}

bool was_read_twice_alike(const Prober& prober, std::span<const TakenReading> readings, std::size_t reading) {
  const Measurement& measurement = readings[reading].measurement;
  const Probe probe = prober.appliance().test_points[measurement.test_point].probe;
  const std::optional<SeenReading> seen = seen_reading(readings[reading], probe, prober.meter());
  for (std::size_t i = 0; seen && i < readings.size(); ++i) {
    if (i == reading || !(readings[i].measurement == measurement)) continue;
    const std::optional<SeenReading> other = seen_reading(readings[i], probe, prober.meter());
    if (other && may_agree(*seen, *other)) return true;
  }
  return false;
}

std::size_t points_that_all_show_open(const Prober& prober, std::span<const TakenReading> readings) {
  std::vector<std::size_t> points;
  for (const TakenReading& reading : readings) {
    const std::size_t point = reading.measurement.test_point;
    const Probe probe = prober.appliance().test_points[point].probe;
    const std::optional<SeenReading> seen = seen_reading(reading, probe, prober.meter());
    if (probe != Probe::ohms || !seen) continue;
    const bool is_open =
        seen->form == SeenReading::Form::over_range || seen->form == SeenReading::Form::does_not_conduct;
    if (!is_open) return 0;
    if (std::find(points.begin(), points.end(), point) == points.end()) points.push_back(point);
  }
  return points.size();
}

std::tuple<std::size_t, std::size_t, bool> place_of(const Measurement& measurement) {
  return {measurement.test_point, measurement.set_up.value_or(std::numeric_limits<std::size_t>::max()),
          measurement.low_impedance};
}

namespace {

void note_set_ups_made_anew(std::span<WeighedReading> readings) {
  for (const WeighedReading& one : readings) {
    if (!one.measurement.set_up) continue;
    const bool reads_otherwise = std::any_of(readings.begin(), readings.end(), [&](const WeighedReading& other) {
      return &other != &one && other.measurement == one.measurement && !may_agree(other.seen, one.seen);
    });
    if (!reads_otherwise) continue;
    for (WeighedReading& other : readings)
      if (other.measurement.set_up == one.measurement.set_up) other.is_of_many_set_ups = true;
  }
}

}  // namespace

std::vector<WeighedReading> join_repeats(const Prober& prober, std::span<const TakenReading> readings) {
  std::vector<WeighedReading> single;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const Probe probe = prober.appliance().test_points[readings[i].measurement.test_point].probe;
    const std::optional<SeenReading> seen = seen_reading(readings[i], probe, prober.meter());
    if (!seen) continue;
    const std::size_t values = seen->form == SeenReading::Form::value ? 1 : 0;
    single.push_back({readings[i].measurement, probe, *seen, readings[i].any_of.has_value(), {i}, values});
  }
  // One order, whatever that of the readings: which of them join is a matter of it, and so is what is learnt of shared
  // errors where ways are many.
  std::stable_sort(single.begin(), single.end(), [](const WeighedReading& a, const WeighedReading& b) {
    const auto key = [](const WeighedReading& r) {
      return std::tuple(place_of(r.measurement), r.seen.form, r.seen.at, r.seen.past.value_or(0.0), r.seen.uncertainty);
    };
    return key(a) < key(b);
  });
  std::vector<WeighedReading> joined;
  for (const WeighedReading& one : single) {
    const auto same = std::find_if(joined.begin(), joined.end(), [&](const WeighedReading& other) {
      return other.measurement == one.measurement && agree(other.seen, one.seen);
    });
    if (same == joined.end()) {
      joined.push_back(one);
      continue;
    }
    take_in(one.seen, *same);
    same->given.push_back(one.given.front());
  }
  note_set_ups_made_anew(joined);
  return joined;
}

JointLikelihood likelihood_of_all(std::span<const WeighedReading> readings,
                                  std::span<const std::vector<PredictedOutcome>* const> predictions,
                                  const ReadingModel& model, Learnt& learnt) {
  JointLikelihood joint;
  for (std::size_t r = 0; r < readings.size(); ++r) {
    const WeighedReading& reading = readings[r];
    const auto begin_anew = [&] {
      if (reading.is_of_many_set_ups) learnt.forget_set_up(*reading.measurement.set_up);
    };
    begin_anew();
    const double misread = likelihood_if_misread_alike(reading, model);
    const double meant = std::pow(1.0 - model.misread_share, static_cast<double>(reading.given.size())) *
                         learnt.take_in(*predictions[r], reading.seen, reading.probe, misread, model);
    begin_anew();
    joint.misread.push_back(misread / (misread + meant));
    joint.of_all *= misread + meant;
    keep_in_range(joint);
  }
  return joint;
}

}  // namespace ohmwright::locate
