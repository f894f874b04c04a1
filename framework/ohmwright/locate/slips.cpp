#include <utility>

#include <ohmwright/locate/slips.hpp>

namespace ohmwright::locate {

namespace {

constexpr double is_unexplained = 0.5;
/// What a slip must bring the doubt down to, to be worth a word.
constexpr double is_explained = 0.1;

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

bool lead_was_left_on(const Prober& prober, std::size_t reading, std::span<const TakenReading> readings,
                      const Signs& signs) {
  const std::size_t point = readings[reading].measurement.test_point;
  if (prober.appliance().test_points[point].lifted.empty()) return false;
  Appliance as_it_was = prober.appliance();
  as_it_was.test_points[point].lifted.clear();
  return Rethought(prober, std::move(as_it_was)).explains(reading, readings, signs);
}

std::optional<Slip> other_state(const Prober& prober, std::size_t reading, std::span<const TakenReading> readings,
                                const Signs& signs) {
  Rethought rethought(prober, prober.appliance());
  std::vector<TakenReading> changed(readings.begin(), readings.end());
  std::vector<std::optional<std::size_t>> others{std::nullopt};
  for (std::size_t i = 0; i < prober.appliance().set_ups.size(); ++i) others.emplace_back(i);
  for (const std::optional<std::size_t>& other : others) {
    if (other == readings[reading].measurement.set_up) continue;
    changed[reading].measurement.set_up = other;
    const bool possible = !other || !prober.appliance().set_ups[*other].only_stated;
    if (possible && rethought.explains(reading, changed, signs)) return Slip{reading, Slip::Form::other_state, other};
  }
  return std::nullopt;
}

}  // namespace

std::vector<Slip> find_slips(const Prober& prober, const Diagnosis& diagnosis, std::span<const TakenReading> readings,
                             const Signs& signs) {
  std::vector<Slip> slips;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (diagnosis.misread[i] <= is_unexplained) continue;
    if (lead_was_left_on(prober, i, readings, signs))
      slips.push_back({i, Slip::Form::lead_left_on, std::nullopt});
    else if (const auto slip = other_state(prober, i, readings, signs))
      slips.push_back(*slip);
  }
  return slips;
}

}  // namespace ohmwright::locate
