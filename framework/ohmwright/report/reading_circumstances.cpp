#include <algorithm>
#include <cstddef>

#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/reading_circumstances.hpp>

namespace ohmwright {

namespace {

bool is_ohms_of_unsaid_connection(const VerdictReport& report, const PreparedReading& reading) {
  return !is_set_aside(reading) && report.descriptor.measurands[reading.measurand].dimension == Dimension::resistance &&
         !is_live(reading) && reading.connection == Connection::unstated &&
         !states_test_voltage(report.readings[reading.reading]);
}

}  // namespace

bool holds_only_if_alone(const VerdictReport& report) {
  if (report.verdict.outcome != Outcome::within_limits) return false;
  const auto readings = report.evidence.readings();
  return std::any_of(readings.begin(), readings.end(), [&](const PreparedReading& reading) {
    if (!is_ohms_of_unsaid_connection(report, reading) || shows_more_than_range(reading)) return false;
    return std::none_of(readings.begin(), readings.end(), [&](const PreparedReading& other) {
      return other.measurand == reading.measurand && is_ohms_of_unsaid_connection(report, other) &&
             shows_more_than_range(other);
    });
  });
}

std::vector<SwappedPair> set_aside_pairs(const VerdictReport& report) {
  const auto readings = report.evidence.readings();
  const auto measurand_of = [&](std::size_t i) {
    return index_of(report.descriptor.measurands, report.readings[readings[i].reading].measurand);
  };
  std::vector<SwappedPair> pairs;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const std::uint16_t plain = unswapped(report.descriptor, measurand_of(i));
    if (!is_set_aside(readings[i]) || plain == not_found) continue;
    for (std::size_t j = 0; j < readings.size(); ++j) {
      if (!is_set_aside(readings[j]) || measurand_of(j) != plain) continue;
      pairs.push_back({static_cast<std::uint16_t>(j), static_cast<std::uint16_t>(i)});
      break;
    }
  }
  return pairs;
}

std::string set_aside_sentence(const VerdictReport& report, const SwappedPair& pair, const Sentences& say) {
  const auto readings = report.evidence.readings();
  return say(OHMWRIGHT_TEXT("Not judged: {plain} and {swapped} are one thing read with the probes swapped, and they "
                            "differ. No part does that by itself: volts stand on it (a charged capacitor, a supply), "
                            "something else is still connected, or a contact comes and goes."),
             {{"plain", report.evidence.label(readings[pair.plain])},
              {"swapped", report.evidence.label(readings[pair.swapped])}});
}

}  // namespace ohmwright
