#include <utility>

#include <ohmwright/locate/slips.hpp>

namespace ohmwright::locate {

namespace {

/// What a slip must bring the doubt down to, to be worth a word.
constexpr double is_explained = 0.05;

/// The readings thought through anew, with one fault at once, for what becomes of one of them.
class Rethought {
 public:
  Rethought(const Prober& prober, Appliance appliance)
      : appliance_(std::move(appliance)),
        faults_(appliance_, one_fault()),
        prober_(faults_, prober.site(), prober.meter(), prober.model()),
        reasoner_(prober_) {}

  bool explains(std::size_t reading, std::span<const TakenReading> readings, const Signs& signs) {
    return reasoner_.diagnose(readings, signs).misread[reading] < is_explained;
  }

 private:
  static PriorSettings one_fault() {
    PriorSettings settings;
    settings.most_faults = 1;
    return settings;
  }

  Appliance appliance_;
  FaultList faults_;
  Prober prober_;
  Reasoner reasoner_;
};

Appliance with_leads_on(const Prober& prober, std::size_t test_point) {
  Appliance as_it_was = prober.appliance();
  as_it_was.test_points[test_point].lifted.clear();
  return as_it_was;
}

/// The set-up after which the reading is explained.
std::optional<Slip> slip_of_state(const Prober& prober, Appliance appliance, Slip slip,
                                  std::span<const TakenReading> readings, const Signs& signs) {
  const std::vector<SetUp> set_ups = appliance.set_ups;
  Rethought rethought(prober, std::move(appliance));
  std::vector<TakenReading> changed(readings.begin(), readings.end());
  std::vector<std::optional<std::size_t>> others{std::nullopt};
  for (std::size_t i = 0; i < set_ups.size(); ++i) others.emplace_back(i);
  for (const std::optional<std::size_t>& other : others) {
    if (other == readings[slip.reading].measurement.set_up) continue;
    changed[slip.reading].measurement.set_up = other;
    const bool possible = !other || (!set_ups[*other].only_stated && !set_ups[*other].cools_down);
    if (!possible || !rethought.explains(slip.reading, changed, signs)) continue;
    slip.set_up = other;
    return slip;
  }
  return std::nullopt;
}

/// Other pins of the same connector that show it.
std::optional<Slip> slip_of_terminals(const Prober& prober, std::size_t reading, std::span<const TakenReading> readings,
                                      const Signs& signs) {
  const std::vector<TestPoint>& points = prober.appliance().test_points;
  const TestPoint& meant = points[readings[reading].measurement.test_point];
  Rethought rethought(prober, prober.appliance());
  std::vector<TakenReading> changed(readings.begin(), readings.end());
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (&points[i] == &meant || points[i].probe != meant.probe || points[i].lifted != meant.lifted) continue;
    changed[reading].measurement.test_point = i;
    if (rethought.explains(reading, changed, signs)) return Slip{reading, Slip::Form::other_terminals, {}, i};
  }
  return std::nullopt;
}

void add_slips_of(const Prober& prober, std::size_t reading, std::span<const TakenReading> readings, const Signs& signs,
                  std::vector<Slip>& slips) {
  const std::size_t point = readings[reading].measurement.test_point;
  const bool lifts = !prober.appliance().test_points[point].lifted.empty();
  if (lifts && Rethought(prober, with_leads_on(prober, point)).explains(reading, readings, signs)) {
    slips.push_back({reading, Slip::Form::lead_left_on});
    return;
  }
  if (const auto slip =
          slip_of_state(prober, prober.appliance(), {reading, Slip::Form::other_state}, readings, signs)) {
    slips.push_back(*slip);
    return;
  }
  if (!lifts) return;
  const Slip both{reading, Slip::Form::left_on_in_state};
  if (const auto slip = slip_of_state(prober, with_leads_on(prober, point), both, readings, signs))
    slips.push_back(*slip);
  if (const auto slip = slip_of_terminals(prober, reading, readings, signs)) slips.push_back(*slip);
}

}  // namespace

std::vector<Slip> find_slips(const Prober& prober, const Diagnosis& diagnosis, std::span<const TakenReading> readings,
                             const Signs& signs) {
  std::vector<Slip> slips;
  for (std::size_t i = 0; i < readings.size(); ++i)
    if (diagnosis.misread[i] >= is_explained) add_slips_of(prober, i, readings, signs, slips);
  return slips;
}

}  // namespace ohmwright::locate
