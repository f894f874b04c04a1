#include <algorithm>
#include <cmath>
#include <cstdint>

#include <ohmwright/component/role.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_words.hpp>
#include <ohmwright/report/remarked_search.hpp>

namespace ohmwright {

namespace {

using locate::Candidate;
using locate::PredictedOutcome;
using locate::SeenReading;
using locate::TakenReading;

/// Volts above this share of the supply are nearly all of it; below the other, nearly nothing.
constexpr double nearly_all_volts = 0.8;
constexpr double nearly_no_volts = 0.1;

class VoltRemarks {
 public:
  explicit VoltRemarks(RemarkedSearch& search) : search_(search) {}

  void ghost(const TakenReading& reading) {
    if (!search_.likeliest) return;
    const PredictedOutcome* outcome =
        search_.likeliest_of(search_.report.reasoner.predicted(*search_.likeliest, reading.measurement));
    if (outcome == nullptr || outcome->form != PredictedOutcome::Form::floating) return;
    if (was_read_on_low_input(reading.measurement)) return;
    search_.remark(
        OHMWRIGHT_TEXT("{point}: {shown} may be a ghost, on a wire that hangs in the air. Read it again on the "
                       "low-impedance input or with a load on it; treat it as live until then."),
        {{"point", search_.title(reading)}, {"shown", shown_reading(reading, search_.say)}});
  }

  /// What the low-impedance input took away of volts that were read there without it.
  void fell_away(const TakenReading& reading, const SeenReading& seen) {
    const double supply = search_.appliance.supply.voltage.value.value_in_si();
    const locate::Scale scale = locate::scale_of(Probe::volts);
    if (!reading.measurement.low_impedance || seen.form != SeenReading::Form::value ||
        seen.at > scale.at(nearly_no_volts * supply))
      return;
    locate::Measurement without = reading.measurement;
    without.low_impedance = false;
    for (const TakenReading& other : search_.report.readings) {
      const auto before = locate::seen_reading(other, Probe::volts, search_.prober.meter());
      if (!(other.measurement == without) || !before || before->form != SeenReading::Form::value) continue;
      constexpr double fell_by = 3.0;  // times
      const double volts = scale.linear_below * std::sinh(seen.at);
      if (before->at < scale.at(std::max(nearly_no_volts * supply, fell_by * volts))) continue;
      search_.remark(
          OHMWRIGHT_TEXT("{point}: {first} fell away to {shown} on the low-impedance input: it was a ghost. Nothing "
                         "that bears a load feeds this wire; it hangs in the air. Prove it dead before you touch it."),
          {{"point", search_.title(reading)},
           {"first", shown_reading(other, search_.say)},
           {"shown", shown_reading(reading, search_.say)}});
      return;
    }
  }

  void live_neutral(const TakenReading& reading, const SeenReading& seen) {
    const Candidate* sound = search_.candidate_with({});
    if (sound == nullptr || !search_.likeliest) return;
    const locate::Scale scale = locate::scale_of(Probe::volts);
    const double supply = search_.appliance.supply.voltage.value.value_in_si();
    const std::optional<double> would_show = search_.value_of(*sound, reading.measurement);
    if (seen.form != SeenReading::Form::value || seen.at < scale.at(nearly_all_volts * supply) || !would_show ||
        *would_show > nearly_no_volts * supply)
      return;
    search_.remark(is_a_joint_open()
                       ? OHMWRIGHT_TEXT("{point}: nearly the whole supply where there should be none. The way to "
                                        "neutral is open: what looks like neutral is live. Unplug it before you touch "
                                        "anything.")
                       : OHMWRIGHT_TEXT("{point}: nearly the whole supply where there should be none. It is fed where "
                                        "it should not be, or the way to neutral is open and what looks like neutral "
                                        "is live. Unplug it before you touch anything."),
                   {{"point", search_.title(reading)}});
  }

 private:
  /// Whether the likeliest fault is in a wire or what joins wires, and not in what switches.
  bool is_a_joint_open() const {
    const Candidate& candidate = *search_.report.reasoner.instance(*search_.likeliest).candidate;
    return std::any_of(candidate.faults.begin(), candidate.faults.end(), [&](std::uint16_t fault) {
      const PlacedPart& part = search_.appliance.parts[search_.faults.faults()[fault].fault.part];
      return plays(part.kind->descriptor().roles, role::joins_parts);
    });
  }

  bool was_read_on_low_input(locate::Measurement measurement) const {
    measurement.low_impedance = true;
    return std::any_of(search_.report.readings.begin(), search_.report.readings.end(),
                       [&](const TakenReading& other) { return other.measurement == measurement; });
  }

  RemarkedSearch& search_;
};

}  // namespace

void remark_on_volts(RemarkedSearch& search, const locate::TakenReading& reading, const locate::SeenReading& seen) {
  VoltRemarks remarks(search);
  remarks.ghost(reading);
  remarks.fell_away(reading, seen);
  remarks.live_neutral(reading, seen);
}

}  // namespace ohmwright
