#include <algorithm>

#include <ohmwright/locate/part_model.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_words.hpp>
#include <ohmwright/report/remarked_search.hpp>

namespace ohmwright {

namespace {

using locate::Candidate;
using locate::SeenReading;
using locate::TakenReading;

/// A closed contact in at least this share of good parts is closed, in no more than the rest it is open.
constexpr double nearly_all_parts = 0.9;
/// A way beside a part matters where the reading without it is this much higher.
constexpr double far_higher = 1.5;
/// What is taken as cold, for a thermostat that would be closed then [K].
constexpr double cold_kelvin = 243.15;

class WarmContactRemarks {
 public:
  explicit WarmContactRemarks(RemarkedSearch& search) : search_(search) {}

  /// A reading that is high, or OL, because its way leads through a good contact that is warm.
  void warm_contact(const TakenReading& reading, const SeenReading& seen) {
    const bool reads_open = seen.form == SeenReading::Form::over_range ||
                            seen.form == SeenReading::Form::does_not_conduct ||
                            (seen.form == SeenReading::Form::value &&
                             seen.at > locate::scale_of(Probe::ohms).at(search_.prober.model().conducts_below));
    if (!reads_open) return;
    const locate::Site site =
        locate::after_set_up(search_.appliance, search_.prober.site(), reading.measurement.set_up);
    const auto alone = part_between_probes(search_.appliance, reading.measurement.test_point);
    for (std::size_t part = 0; part < search_.appliance.parts.size(); ++part) {
      if (!is_open_for_being_warm(part, site)) continue;
      const FindingArgument of{"part", search_.appliance.parts[part].title};
      const FindingArgument warm{"temperature",
                                 search_.say.stated(site.zone_temperatures[*search_.appliance.parts[part].zone])};
      if (part == alone)
        search_.remark(
            OHMWRIGHT_TEXT(
                "{part} is open because it is warm ({temperature}): a good one is, too. Read it again once it is "
                "cold or chilled before you doubt it."),
            {of, warm});
      else if (leads_through(part, site, reading, seen))
        search_.remark(
            OHMWRIGHT_TEXT("{point} leads through the {part}, which is open because it is warm ({temperature}): a "
                           "good one is, too. Read it again once that is cold or chilled before you doubt anything."),
            {{"point", search_.title(reading)}, of, warm});
    }
  }

 private:
  /// Share of good parts that conduct between the first two terminals.
  double share_closed(std::size_t part, const locate::Site& site) const {
    double share = 0.0;
    for (const locate::ElementSpread& element :
         locate::part_model(search_.appliance, part, not_found, site, Excitation::ohmmeter)) {
      if (std::min(element.from, element.to) != 0 || std::max(element.from, element.to) != 1) continue;
      double closed = 0.0;
      for (const locate::ElementChoice& choice : element.choices)
        if (choice.type != ElementType::open) closed += choice.weight;
      share = std::max(share, closed);
    }
    return share;
  }

  /// Whether a good part with a contact is open for being warm and closed when cold.
  bool is_open_for_being_warm(std::size_t part, locate::Site site) const {
    if (!search_.appliance.parts[part].zone || share_closed(part, site) > 1.0 - nearly_all_parts) return false;
    make_cold(*search_.appliance.parts[part].zone, site);
    return share_closed(part, site) >= nearly_all_parts;
  }

  static void make_cold(std::size_t zone, locate::Site& site) {
    site.zone_temperatures[zone].value = AnyQuantity(Dimension::temperature, cold_kelvin);
    site.zone_temperatures[zone].half_width = 0.0;
  }

  /// Whether a good appliance would read far lower there if that part were cold.
  bool leads_through(std::size_t part, locate::Site site, const TakenReading& reading, const SeenReading& seen) {
    const Candidate* sound = search_.candidate_with({});
    if (sound == nullptr) return false;
    const std::optional<double> now = search_.value_of(*sound, reading.measurement);
    make_cold(*search_.appliance.parts[part].zone, site);
    locate::Prober cold(search_.faults, site, search_.prober.meter(), search_.prober.model());
    const std::optional<double> then = search_.value_of(cold, *sound, {reading.measurement.test_point, {}});
    if (!then || (now && *now < far_higher * *then)) return false;
    return (seen.form != SeenReading::Form::value || seen.at > locate::scale_of(Probe::ohms).at(far_higher * *then));
  }

  RemarkedSearch& search_;
};

}  // namespace

void remark_on_warm_contact(RemarkedSearch& search, const locate::TakenReading& reading,
                            const locate::SeenReading& seen) {
  WarmContactRemarks(search).warm_contact(reading, seen);
}

}  // namespace ohmwright
