#include "simulated_tally.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>

namespace ohmwright::locate::testing {

namespace {

constexpr double named_from = 0.95;
constexpr double condemned_from = 0.995;

std::string words_of(const FaultList& faults, const SimulatedSearch& search) {
  const Appliance& appliance = faults.appliance();
  std::string words = appliance.id + ":";
  for (const std::uint16_t fault : search.truth->faults) words += " " + faults.name(fault);
  if (search.truth->outside_cause) words += " " + appliance.outside_causes[*search.truth->outside_cause].id;
  words += " taken for";
  for (const std::size_t part : search.ended.parts) words += " " + appliance.parts[part].id;
  if (search.ended.outside_cause) words += " " + appliance.outside_causes[*search.ended.outside_cause].id;
  char rest[80];
  (void)std::snprintf(rest, sizeof rest, " with %.3f after %zu steps, %zu misread", search.ended.probability,
                      search.steps, search.misreadings);
  return words + rest;
}

}  // namespace

void SimulatedTally::take(const FaultList& faults, const SimulatedSearch& search,
                          std::span<const PartFault> separable_faults) {
  ++searches;
  misreadings += search.misreadings;
  readings += search.steps;
  const Candidate& truth = *search.truth;
  if (truth.faults.size() == 2) ++double_faults;
  const bool is_named = search.ended.probability >= named_from && !search.ended.parts.empty();
  const bool is_condemned = search.ended.probability >= condemned_from && !search.ended.parts.empty();
  named += is_named ? 1 : 0;
  condemned += is_condemned ? 1 : 0;
  if (is_named && search.good_part_named) ++good_part_named;
  if (is_condemned && search.good_part_named) {
    ++good_part_condemned;
    misses.push_back("good part condemned, " + words_of(faults, search));
  }
  const bool is_separable = truth.faults.size() == 1 && !truth.outside_cause &&
                            std::find(separable_faults.begin(), separable_faults.end(),
                                      faults.faults()[truth.faults.front()].fault) != separable_faults.end();
  if (is_separable) {
    ++separable;
    if (is_named && search.named.back().is_so)
      ++separable_named;
    else
      misses.push_back("not named, " + words_of(faults, search));
  }
  std::array<bool, 10> counted{};
  double more = 0.0;
  for (const Said& said : search.named) {
    more += said.probability - (said.is_so ? 1.0 : 0.0);
    const auto index = std::min<std::size_t>(9, static_cast<std::size_t>(10.0 * said.probability));
    Tenth& tenth = tenths[index];
    if (!counted[index]) ++tenth.searches;
    counted[index] = true;
    ++tenth.said;
    tenth.was_so += said.is_so ? 1 : 0;
    tenth.stated += said.probability;
  }
  overstated.push_back(more / static_cast<double>(search.named.size()));
}

double SimulatedTally::mean_overstated() const {
  return std::accumulate(overstated.begin(), overstated.end(), 0.0) / static_cast<double>(overstated.size());
}

double SimulatedTally::standard_error_of_overstated() const {
  const double mean = mean_overstated();
  double squares = 0.0;
  for (const double one : overstated) squares += (one - mean) * (one - mean);
  const auto count = static_cast<double>(overstated.size());
  return std::sqrt(squares / (count - 1.0) / count);
}

std::string SimulatedTally::table() const {
  char line[160];
  std::string text =
      "| stated | searches | times said | mean stated | was so | difference |\n"
      "| --- | ---: | ---: | ---: | ---: | ---: |\n";
  for (std::size_t i = 0; i < tenths.size(); ++i) {
    const Tenth& tenth = tenths[i];
    if (tenth.said == 0) continue;
    (void)std::snprintf(line, sizeof line, "| %zu…%zu %% | %zu | %zu | %.1f %% | %.1f %% | %+.1f |\n", 10 * i,
                        10 * (i + 1), tenth.searches, tenth.said, 100.0 * tenth.mean_stated(), 100.0 * tenth.share_so(),
                        100.0 * (tenth.share_so() - tenth.mean_stated()));
    text += line;
  }
  (void)std::snprintf(line, sizeof line, "\n%zu searches, %zu of double faults; %zu steps, %zu misreadings\n", searches,
                      double_faults, readings, misreadings);
  text += line;
  (void)std::snprintf(
      line, sizeof line, "separable single faults: %zu of %zu named with 0.95 (%.1f %%)\n", separable_named, separable,
      100.0 * static_cast<double>(separable_named) / static_cast<double>(std::max<std::size_t>(1, separable)));
  text += line;
  (void)std::snprintf(line, sizeof line,
                      "parts named with 0.95: %zu, a good one among them %zu; with 0.995: %zu, a good one %zu\n", named,
                      good_part_named, condemned, good_part_condemned);
  text += line;
  (void)std::snprintf(line, sizeof line, "stated beyond what was so: %+.2f points, standard error %.2f\n",
                      100.0 * mean_overstated(), 100.0 * standard_error_of_overstated());
  return text + line;
}

}  // namespace ohmwright::locate::testing
