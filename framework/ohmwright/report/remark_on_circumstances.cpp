#include <algorithm>
#include <variant>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_words.hpp>
#include <ohmwright/report/remarked_search.hpp>

namespace ohmwright {

namespace {

using locate::Candidate;
using locate::Measurement;
using locate::SeenReading;
using locate::TakenReading;

/// The share of its likelihood as found that a reading has after a set-up, if that most likely did not take.
constexpr double likely_missed = 0.2;

class CircumstanceRemarks {
 public:
  explicit CircumstanceRemarks(RemarkedSearch& search) : search_(search) {}

  /// A reading that a temperature decides which nobody measured.
  void not_measured(const TakenReading& reading) {
    const locate::Site site =
        locate::after_set_up(search_.appliance, search_.prober.site(), reading.measurement.set_up);
    const Candidate* sound = search_.candidate_with({});
    if (sound == nullptr) return;
    for (std::size_t zone = 0; zone < search_.appliance.zones.size(); ++zone) {
      if (!site.not_measured[zone]) continue;
      const double coldest = site.not_measured[zone]->from_kelvin;
      const double warmest = site.not_measured[zone]->to_kelvin;
      if (!hangs_on(zone, site, *sound, reading, coldest, warmest)) continue;
      search_.remark(
          OHMWRIGHT_TEXT("{point} hangs on the temperature of the {zone}, which nobody measured: it is taken for "
                         "anything from {cold} to {warm}. Measure it and say so (--zone {id}=...) before you doubt "
                         "what lies there."),
          {{"point", search_.title(reading)},
           {"zone", search_.appliance.zones[zone].title},
           {"cold", temperature_text(coldest, search_.say)},
           {"warm", temperature_text(warmest, search_.say)},
           {"id", search_.appliance.zones[zone].id}});
    }
  }

  /// A reading after a set-up that leaves a zone as warm as another, of which nobody said how warm it is.
  void as_warm_as_nobody_said(const TakenReading& reading) {
    const TemperatureSpan room = locate::room_that_nobody_spoke_of();
    const Candidate* sound = search_.candidate_with({});
    if (sound == nullptr || !reading.measurement.set_up) return;
    const locate::Site site =
        locate::after_set_up(search_.appliance, search_.prober.site(), reading.measurement.set_up);
    for (const SetTemperature& row : search_.appliance.set_ups[*reading.measurement.set_up].temperatures) {
      if (!row.as_warm_as || site.known[*row.as_warm_as] != locate::ZoneKnowledge::by_file) continue;
      if (!hangs_on(row.zone, site, *sound, reading, room.from_kelvin, room.to_kelvin)) continue;
      const Zone& other = search_.appliance.zones[*row.as_warm_as];
      search_.remark(
          OHMWRIGHT_TEXT("{point} is weighed at {temperature}: as warm as the {zone}, of which nobody said how warm it "
                         "is. Measure it and say so (--zone {id}=...) before you doubt what lies there."),
          {{"point", search_.title(reading)},
           {"temperature", search_.say.stated(site.zone_temperatures[row.zone])},
           {"zone", other.title},
           {"id", other.id}});
    }
  }

  /// A reading that a sound appliance shows as found, and not after that set-up.
  void missed_set_up(const TakenReading& reading, const SeenReading& seen) {
    const Candidate* sound = search_.candidate_with({});
    const Measurement& measurement = reading.measurement;
    if (sound == nullptr || !measurement.set_up || search_.appliance.set_ups[*measurement.set_up].only_stated) return;
    const double as_found = search_.likelihood_of(*sound, {measurement.test_point, {}}, seen);
    const double slip = search_.prober.model().misread_share *
                        locate::likelihood_if_misread(seen, search_.probe(reading), search_.prober.model());
    if (as_found > slip && search_.likelihood_of(*sound, measurement, seen) < likely_missed * as_found)
      search_.remark(
          OHMWRIGHT_TEXT("{point}: {shown} is what it shows as found. Did the set-up take ({set_up})? Bring it about "
                         "once more and watch for its sign: another value then shows that it had not taken, the same "
                         "one counts once."),
          {{"point", search_.title(reading)},
           {"shown", shown_reading(reading, search_.say)},
           {"set_up", search_.appliance.set_ups[*measurement.set_up].title}});
  }

 private:
  /// Whether a sound appliance reads otherwise there when that zone is cold than when it is warm [K]. An open way where
  /// it shows ohms at both is of no temperature.
  bool hangs_on(std::size_t zone, locate::Site site, const Candidate& sound, const TakenReading& reading,
                double coldest, double warm) {
    constexpr double otherwise = 1.3;
    const Measurement& measurement = reading.measurement;
    site.not_measured[zone].reset();
    site.zone_temperatures[zone].value = AnyQuantity(Dimension::temperature, coldest);
    locate::Prober cold_one(search_.faults, site, search_.prober.meter(), search_.prober.model());
    const std::optional<double> cold = search_.value_of(cold_one, sound, {measurement.test_point, {}});
    site.zone_temperatures[zone].value = AnyQuantity(Dimension::temperature, warm);
    locate::Prober warm_one(search_.faults, site, search_.prober.meter(), search_.prober.model());
    const std::optional<double> then = search_.value_of(warm_one, sound, {measurement.test_point, {}});
    if (cold.has_value() != then.has_value()) return true;
    if (std::holds_alternative<OverRange>(reading.observed)) return false;
    return cold && std::max(*cold, *then) > otherwise * std::max(1.0, std::min(*cold, *then));
  }

  RemarkedSearch& search_;
};

}  // namespace

void remark_on_circumstances(RemarkedSearch& search, const locate::TakenReading& reading,
                             const locate::SeenReading& seen) {
  CircumstanceRemarks remarks(search);
  remarks.not_measured(reading);
  remarks.as_warm_as_nobody_said(reading);
  remarks.missed_set_up(reading, seen);
}

}  // namespace ohmwright
