#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <unistd.h>

#include <gtest/gtest.h>

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/locate/separation.hpp>
#include <ohmwright/uncertainty/reproducible_stream.hpp>

#include "simulated_tally.hpp"

// Faults in the shipped appliances, read by ngspice and not by our solver, searched step by step as the program offers
// the steps: whether the faulty part is found, good parts are left alone, and stated probabilities are kept.
//
// Drawn from the printed weights, in even steps through them: what is wrong (one fault, two, a cause outside, nothing).
// Drawn evenly: every tolerance and temperature within its ±, the meter's gain, counts and leads within theirs, 0 to
// 0.1 ohm of contact at the probes, one reading in a hundred misread, in the same way again with 0.1.
// OHMWRIGHT_SIMULATED_FAULTS=2000 draws more than the 200 of a normal run.

namespace ohmwright::locate::testing {
namespace {

constexpr std::uint64_t seed = 20'260'101;
constexpr double told_from = 0.95;

std::size_t faults_to_draw() {
  constexpr std::size_t usual = 200;
  const char* asked = std::getenv("OHMWRIGHT_SIMULATED_FAULTS");
  return asked == nullptr ? usual : std::strtoul(asked, nullptr, 10);
}

/// What is said within one search hangs together, so searches count, not times said.
double standard_error(const Tenth& tenth) {
  const double share = tenth.mean_stated();
  return std::sqrt(share * (1.0 - share) / static_cast<double>(tenth.searches));
}

TEST(SimulatedFaults, AreFoundWithTheProbabilityStated) {
  const Registry registry({OHMWRIGHT_PLUGIN_FOLDER}, ::geteuid());
  const Meter meter = read_meter(read_document(OHMWRIGHT_SOURCE_DIR "/framework/ohmwright/document/meters/basic.json"));
  const std::string folder = OHMWRIGHT_SOURCE_DIR "/framework/ohmwright/appliance/appliances";
  const std::vector<std::string> names = names_in_folder(folder);
  const std::size_t all = faults_to_draw();
  SimulatedTally tally;
  std::printf("seed %llu, %s\n", static_cast<unsigned long long>(seed), ReproducibleStream::name);
  for (std::size_t i = 0; i < names.size(); ++i) {
    const Appliance appliance = read_appliance(read_document(folder + "/" + names[i] + ".json"), registry);
    SearchSettings settings;
    settings.steps.allow_live = true;
    // Every set-up of a drawn appliance takes.
    settings.readings.set_up_missed = settings.readings.temperature_missed = 0.0;
    Search search(appliance, meter, site_as_found(appliance), settings);
    const FaultList& faults = search.reasoner().faults();
    const std::size_t count = all * (i + 1) / names.size() - all * i / names.size();
    const auto results = simulate(faults, search, count, seed + i);
    if (!results) GTEST_SKIP() << "ngspice is not installed";
    const std::vector<PartFault> separable = separable_faults(appliance, meter, told_from);
    double steps = 0.0;
    double minutes = 0.0;
    for (const SimulatedSearch& one : *results) {
      tally.take(faults, one, separable);
      steps += static_cast<double>(one.steps);
      minutes += one.minutes;
    }
    const auto searches = static_cast<double>(count);
    std::printf("%s: %zu of %zu faults separable, %.1f steps and %.0f min a search\n", names[i].c_str(),
                separable.size(), faults.faults().size(), steps / searches, minutes / searches);
  }
  for (const std::string& miss : tally.misses) std::printf("%s\n", miss.c_str());
  std::printf("\n%s", tally.table().c_str());

  // The project's own aims, of a tenth in which enough searches said something to tell. It is known no better than its
  // standard error: one point and three of these.
  constexpr std::size_t enough_searches = 300;
  EXPECT_GE(tally.separable_named, 0.97 * static_cast<double>(tally.separable));
  EXPECT_LE(tally.good_part_condemned, 0.005 * static_cast<double>(tally.searches));
  // All tenths together, which tells with few searches what each of them tells with many.
  EXPECT_NEAR(tally.mean_overstated(), 0.0, 0.01 + 3.0 * tally.standard_error_of_overstated());
  for (const Tenth& tenth : tally.tenths) {
    if (tenth.searches < enough_searches) continue;
    EXPECT_NEAR(tenth.share_so(), tenth.mean_stated(), 0.01 + 3.0 * standard_error(tenth)) << tenth.mean_stated();
  }
}

}  // namespace
}  // namespace ohmwright::locate::testing
