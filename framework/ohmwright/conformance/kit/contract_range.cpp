// What an over-range display tells: more than the range that was set, and no more than that.

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <ohmwright/conformance/kit/contract_case.hpp>
#include <ohmwright/quantity/print.hpp>

namespace ohmwright {

namespace {

constexpr double low_range_ohms = 600.0;  // the lowest range of common hand-held meters; common practice, no source

bool is_of_ohms(const Descriptor& descriptor, const Reading& reading) {
  const std::uint16_t index = index_of(descriptor.measurands, reading.measurand);
  return index != not_found && descriptor.measurands[index].dimension == Dimension::resistance &&
         reading.supply != Supply::live && !states_test_voltage(reading);
}

/// The readings with that one taken anew.
std::vector<Reading> with(const std::vector<Reading>& readings, std::size_t at, const Observed& observed,
                          std::optional<AnyQuantity> range) {
  std::vector<Reading> changed = readings;
  changed[at].observed = observed;
  changed[at].repeats.clear();
  changed[at].range = range;
  return changed;
}

/// What the other readings prove is not proved by that one, and what they condemn is not condemned by it.
std::vector<Reading> without(std::vector<Reading> readings, std::size_t at) {
  readings.erase(readings.begin() + static_cast<std::ptrdiff_t>(at));
  return readings;
}

/// A value beyond the low range, which shows OL there, and with which the part does not pass [ohm].
std::optional<double> value_that_does_not_pass(const KindCases& tried, const PreparedVector& prepared,
                                               const std::vector<Reading>& readings, std::size_t at) {
  constexpr std::array beyond{1e3, 1e4, 1e5, 1e6, 1e7};
  const auto* found = std::find_if(beyond.begin(), beyond.end(), [&](double ohms) {
    const StatedValue value{AnyQuantity(Dimension::resistance, ohms), std::nullopt, Unit::si(Dimension::resistance)};
    return outcome_of(tried, prepared, with(readings, at, value, std::nullopt)) != Outcome::within_limits;
  });
  return found == beyond.end() ? std::nullopt : std::optional(*found);
}

/// What contradicts that reading: OL and, where the kind takes words, "open" behind what conducts, "closed" behind what
/// does not.
std::vector<Observed> contradictions_of(const Descriptor& descriptor, const Reading& reading) {
  const MeasurandDescriptor& measurand = descriptor.measurands[index_of(descriptor.measurands, reading.measurand)];
  const auto* state = std::get_if<ContactState>(&reading.observed);
  const bool conducts =
      std::holds_alternative<StatedValue>(reading.observed) || (state != nullptr && *state == ContactState::closed);
  std::vector<Observed> found;
  if (conducts) found.emplace_back(OverRange{});
  if (measurand.takes_contact_state) found.emplace_back(conducts ? ContactState::open : ContactState::closed);
  return found;
}

/// Whether the part passes with that beside the reading, behind all others or before them.
bool passes_beside(const KindCases& tried, const PreparedVector& prepared, std::vector<Reading> readings,
                   Reading contradiction) {
  contradiction.label = "reading " + std::to_string(readings.size() + 1);
  readings.push_back(std::move(contradiction));
  if (outcome_of(tried, prepared, readings) == Outcome::within_limits) return true;
  std::rotate(readings.begin(), readings.end() - 1, readings.end());
  return outcome_of(tried, prepared, readings) == Outcome::within_limits;
}

/// Whether a value was read that the low range does not show.
bool reads_beyond_low_range(const Reading& reading) {
  const auto* stated = std::get_if<StatedValue>(&reading.observed);
  return stated != nullptr && stated->value.value_in_si() > low_range_ohms;
}

}  // namespace

std::vector<std::string> breaches_of_range(const KindCases& tried) {
  return look_at_cases(
      tried, [&](const VectorCase& vector, const PreparedVector& prepared, const Verdict& verdict, auto say) {
        for (std::size_t i = 0; i < vector.readings.size(); ++i) {
          if (!is_of_ohms(tried.kind.descriptor(), vector.readings[i])) continue;
          const AnyQuantity range(Dimension::resistance, low_range_ohms);
          const Outcome on_low_range = outcome_of(tried, prepared, with(vector.readings, i, OverRange{}, range));
          if (on_low_range == Outcome::out_of_limits && verdict.outcome == Outcome::within_limits &&
              reads_beyond_low_range(vector.readings[i]) &&
              outcome_of(tried, prepared, without(vector.readings, i)) != Outcome::out_of_limits)
            say("OL on a range of 600 ohm condemns it, and that is what it shows there when it is good; look at "
                "`range_full_scale` before you take OL for open");
          if (on_low_range != Outcome::within_limits) continue;
          if (outcome_of(tried, prepared, without(vector.readings, i)) == Outcome::within_limits) continue;
          if (const auto ohms = value_that_does_not_pass(tried, prepared, vector.readings, i))
            say("OL on a range of 600 ohm passes, and " + exact_text({Dimension::resistance, *ohms}) +
                ", which shows OL there too, does not; look at `range_full_scale` before you take OL for open");
        }
      });
}

std::vector<std::string> breaches_of_contradiction(const KindCases& tried) {
  return look_at_cases(
      tried, [&](const VectorCase& vector, const PreparedVector& prepared, const Verdict& verdict, auto say) {
        if (verdict.outcome != Outcome::within_limits) return;
        for (std::size_t i = 0; i < vector.readings.size(); ++i) {
          const Reading& good = vector.readings[i];
          if (!is_of_ohms(tried.kind.descriptor(), good) || good.connection != Connection::lead_off) continue;
          for (const Observed& observed : contradictions_of(tried.kind.descriptor(), good)) {
            const std::vector<Reading> in_its_place = with(vector.readings, i, observed, std::nullopt);
            if (outcome_of(tried, prepared, in_its_place) != Outcome::out_of_limits) continue;
            if (!passes_beside(tried, prepared, vector.readings, in_its_place[i])) continue;
            say(std::string(std::holds_alternative<OverRange>(observed) ? "OL" : "another state of its contact") +
                " beside the good reading of " + good.measurand +
                " is passed over, and condemns it alone; judge every reading, not the first one");
          }
        }
      });
}

}  // namespace ohmwright
