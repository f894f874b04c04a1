// Promises about readings that were taken or typed in another way than in the case.

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>

#include <ohmwright/conformance/kit/contract_case.hpp>
#include <ohmwright/quantity/print.hpp>

namespace ohmwright {

namespace {

/// Volts, amperes, watts and turns are read in circuit by their nature; what a path beside the part falsifies are ohms
/// and farads.
bool all_are_falsified_in_circuit(const Descriptor& descriptor, const std::vector<Reading>& readings) {
  return std::all_of(readings.begin(), readings.end(), [&](const Reading& reading) {
    const std::uint16_t index = index_of(descriptor.measurands, reading.measurand);
    if (index == not_found) return false;
    const Dimension dimension = descriptor.measurands[index].dimension;
    return dimension == Dimension::resistance || dimension == Dimension::capacitance;
  });
}

std::vector<Reading> in_circuit(std::vector<Reading> readings) {
  for (Reading& reading : readings) reading.connection = Connection::in_circuit;
  return readings;
}

bool is_ohms_alone(const Descriptor& descriptor, const Reading& reading) {
  const std::uint16_t index = index_of(descriptor.measurands, reading.measurand);
  return index != not_found && descriptor.measurands[index].dimension == Dimension::resistance &&
         reading.connection == Connection::lead_off && reading.supply != Supply::live;
}

/// OL where that one was taken, in circuit and proved dead; then the same with the probes swapped.
std::vector<Reading> open_in_circuit(const Descriptor& descriptor, const std::vector<Reading>& readings) {
  std::vector<Reading> open;
  for (const Reading& alone : readings) {
    if (!is_ohms_alone(descriptor, alone)) continue;
    Reading there = alone;
    there.observed = OverRange{};
    there.repeats.clear();
    there.range.reset();
    there.connection = Connection::in_circuit;
    there.supply = Supply::proved_dead;
    open.push_back(there);
    there.measurand += "_swapped";
    if (index_of(descriptor.measurands, there.measurand) != not_found) open.push_back(there);
  }
  return open;
}

/// The readings with every value scaled, taken in another way.
std::vector<Reading> scaled(std::vector<Reading> readings, double factor, Connection connection, Moisture moisture) {
  for (Reading& reading : readings) {
    reading.connection = connection;
    reading.moisture = moisture;
    for (double& repeat : reading.repeats) repeat *= factor;
    if (auto* stated = std::get_if<StatedValue>(&reading.observed))
      stated->value = AnyQuantity(stated->value.dimension(), stated->value.value_in_si() * factor);
  }
  return readings;
}

/// Why a reading scaled so is not judged, or nothing.
std::optional<std::string> failure_at(const KindCases& tried, const PreparedVector& prepared,
                                      const std::vector<Reading>& readings) {
  try {
    const auto judged = judged_case(tried.kind, prepared, readings);
    if (const auto* failed = std::get_if<NotJudged>(&judged)) return failed->text;
  } catch (const InputError&) {  // the meter cannot show that: nothing is judged, so nothing failed
  }
  return std::nullopt;
}

/// The first failure of one case among many ways to read it.
std::optional<std::string> first_failure(const KindCases& tried, const VectorCase& vector, PreparedVector& prepared) {
  constexpr std::array factors{-1.0, 0.0, 1e-3, 0.5, 0.9, 0.95, 0.98, 1.0, 1.02, 1.05, 1.1, 2.0, 1e3};
  for (const double factor : factors)
    for (const Connection connection : {Connection::unstated, Connection::lead_off, Connection::in_circuit})
      for (const Moisture moisture : {Moisture::dry, Moisture::wet})
        for (const double confidence : {0.8, 0.95, 0.999}) {
          prepared.settings.confidence = confidence;
          const auto why = failure_at(tried, prepared, scaled(vector.readings, factor, connection, moisture));
          if (why)
            return "its readings times " + exact_text({Dimension::ratio, factor}) + ", confidence " +
                   exact_text({Dimension::ratio, confidence}) + ": " + *why;
        }
  return std::nullopt;
}

bool has_limits_of_another_dimension(const Finding& finding) {
  const auto differs = [&finding](const std::optional<AnyQuantity>& limit) {
    return limit && finding.measured && limit->dimension() != finding.measured->dimension();
  };
  return differs(finding.limits.lower) || differs(finding.limits.upper);
}

}  // namespace

std::vector<std::string> breaches_of_circuit(const KindCases& tried) {
  return look_at_cases(
      tried, [&](const VectorCase& vector, const PreparedVector& prepared, const Verdict& verdict, auto say) {
        const std::vector<Reading> there = in_circuit(vector.readings);
        if (all_are_falsified_in_circuit(tried.kind.descriptor(), vector.readings) &&
            outcome_of(tried, prepared, there) == Outcome::within_limits)
          say("read in circuit it passes; a path beside the part lowers what is read, so look at `connection`");
        if (verdict.outcome != Outcome::undecided) return;
        std::vector<Reading> more = vector.readings;
        more.insert(more.end(), there.begin(), there.end());
        if (outcome_of(tried, prepared, more) == Outcome::within_limits)
          say("a further reading in circuit turns undecided into a pass");
      });
}

std::vector<std::string> breaches_of_reading_alone(const KindCases& tried) {
  return look_at_cases(
      tried, [&](const VectorCase& vector, const PreparedVector& prepared, const Verdict& verdict, auto say) {
        if (verdict.outcome != Outcome::within_limits) return;
        std::vector<Reading> more = vector.readings;
        const std::vector<Reading> open = open_in_circuit(tried.kind.descriptor(), vector.readings);
        more.insert(more.end(), open.begin(), open.end());
        if (outcome_of(tried, prepared, more) == Outcome::out_of_limits)
          say("good with a lead off, it is condemned by OL in circuit; the lead or the splice is open, so ask "
              "judge_in_circuit");
      });
}

std::vector<std::string> breaches_of_doubling(const KindCases& tried) {
  return look_at_cases(
      tried, [&](const VectorCase& vector, const PreparedVector& prepared, const Verdict& verdict, auto say) {
        std::vector<Reading> doubled;
        for (const Reading& reading : vector.readings) doubled.insert(doubled.end(), 2, reading);
        const Outcome twice = outcome_of(tried, prepared, doubled);
        if (twice != verdict.outcome && twice != Outcome::undecided)
          say("each reading typed twice makes it " + std::string(name_of(twice)) + "; they share their meter's error");
      });
}

std::vector<std::string> breaches_of_outlier(const KindCases& tried) {
  return look_at_cases(tried, [&](const VectorCase& vector, const PreparedVector& prepared, const Verdict& verdict,
                                  auto say) {
    if (vector.readings.size() != 1 || verdict.outcome != Outcome::within_limits) return;
    const Reading& good = vector.readings.front();
    const auto* stated = std::get_if<StatedValue>(&good.observed);
    if (good.measurand != tried.kind.descriptor().measurands.front().id || stated == nullptr) return;
    std::vector<Reading> many(12, good);
    const double far_off = 1e3 * stated->value.value_in_si();
    many.back().observed = StatedValue{AnyQuantity(stated->value.dimension(), far_off), 0.01 * far_off, stated->unit};
    for (std::size_t i = 0; i < many.size(); ++i) many[i].label = "reading " + std::to_string(i + 1);
    const Outcome last = outcome_of(tried, prepared, many);
    std::reverse(many.begin(), many.end());
    const Outcome first = outcome_of(tried, prepared, many);
    if (last == Outcome::within_limits || first == Outcome::within_limits)
      say("a reading a thousand times off among eleven good ones is passed over; judge every reading, or ask "
          "repeats_jump");
  });
}

std::vector<std::string> breaches_of_not_a_number(const KindCases& tried) {
  return look_at_cases(
      tried, [&](const VectorCase& vector, const PreparedVector& prepared, const Verdict& /*verdict*/, auto say) {
        std::vector<Reading> spoilt = vector.readings;
        bool any = false;
        for (Reading& reading : spoilt)
          if (auto* stated = std::get_if<StatedValue>(&reading.observed)) {
            stated->value = AnyQuantity(stated->value.dimension(), std::nan(""));
            stated->half_width = 1.0;  // a meter would refuse the value before it is judged
            reading.repeats.clear();
            any = true;
          }
        if (any && outcome_of(tried, prepared, spoilt) == Outcome::within_limits)
          say("a reading that is no number passes; compare so that what is no number fails: !(x <= limit)");
      });
}

std::vector<std::string> breaches_of_numbers(const KindCases& tried) {
  std::vector<std::string> breaches = look_at_cases(
      tried, [&](const VectorCase& /*vector*/, const PreparedVector& /*prepared*/, const Verdict& verdict, auto say) {
        for (const Finding& finding : verdict.findings)
          if (has_limits_of_another_dimension(finding))
            say("rule " + std::string(tried.kind.descriptor().rules[finding.rule].id) +
                " tells a value and limits that have not the same unit");
      });
  for (const VectorCase& vector : tried.cases) {
    PreparedVector prepared = prepare_vector(tried.kind, vector, tried.meters);
    if (const auto failure = first_failure(tried, vector, prepared)) breaches.push_back(vector.id + ": " + *failure);
  }
  return breaches;
}

}  // namespace ohmwright
