#include <algorithm>

#include <ohmwright/locate/part_model.hpp>
#include <ohmwright/locate/reading_range.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_words.hpp>
#include <ohmwright/report/remarked_search.hpp>

namespace ohmwright {

namespace {

using locate::Candidate;
using locate::Measurement;
using locate::SeenReading;
using locate::TakenReading;

/// A way beside a part matters where the reading without it is this much higher.
constexpr double much_higher = 1.5;
/// What probes add on bare metal [ohm] (common practice, no source).
constexpr double on_bare_metal_ohm = 0.1;

class OhmRemarks {
 public:
  explicit OhmRemarks(RemarkedSearch& search) : search_(search) {}

  /// OL where a good appliance reads more than the range shows, or may.
  void low_range(const TakenReading& reading, const SeenReading& seen) {
    const Candidate* sound = search_.candidate_with({});
    if (seen.form != SeenReading::Form::over_range || sound == nullptr) return;
    const std::optional<double> would_show = search_.value_of(*sound, reading.measurement);
    const double limit = locate::over_range_limit(search_.prober.meter(), reading.range).ohm;
    if (locate::is_of_unknown_range(reading, Probe::ohms, search_.prober.meter()))
      search_.remark(
          OHMWRIGHT_TEXT("{point}: OL, but on which range is not known: taken for no more than \"above {limit}\". Say "
                         "the range that was set."),
          {{"point", search_.title(reading)}, {"limit", ohms(limit)}});
    else if (would_show && *would_show > limit)
      search_.remark(
          OHMWRIGHT_TEXT("{point}: OL on a range of {limit} tells nothing: a good one reads about {value}. Turn to a "
                         "higher range and read again."),
          {{"point", search_.title(reading)}, {"limit", ohms(limit)}, {"value", ohms(*would_show)}});
  }

  void test_leads(const TakenReading& reading) {
    if (is_across_a_contact(reading)) return;
    const auto* shown = std::get_if<StatedValue>(&reading.observed);
    const StatedValue& leads = search_.prober.meter().lead_resistance;
    const double doubt = leads.half_width.value_or(0.0) + on_bare_metal_ohm;
    if (shown == nullptr || shown->value.value_in_si() > search_.prober.lead_resistance() + 3.0 * doubt) return;
    search_.remark(
        OHMWRIGHT_TEXT(
            "{point}: of the {shown}, about {leads} are the test leads' own. Short the probes and zero them, or "
            "take off what they read. Whether a joint is good that near to nothing, only the drop across it "
            "under load tells."),
        {{"point", search_.title(reading)},
         {"shown", shown_reading(reading, search_.say)},
         {"leads", search_.say.quantity(leads.value, 2)}});
  }

  /// Parts without which the reading would be far higher, where the likeliest fault lies between the probes as well.
  void ways_beside(const TakenReading& reading, const SeenReading& seen) {
    const std::optional<std::uint16_t> fault = search_.only_fault();
    const Candidate* sound = search_.candidate_with({});
    if (!fault || sound == nullptr || seen.form != SeenReading::Form::value) return;
    const std::size_t at_fault = search_.faults.faults()[*fault].fault.part;
    if (is_read_alone(at_fault, reading)) return;
    const Candidate& alone = *search_.report.reasoner.instance(*search_.likeliest).candidate;
    const std::optional<double> shows = search_.value_of(alone, reading.measurement);
    const std::optional<double> would_show = search_.value_of(*sound, reading.measurement);
    if (!shows || !would_show || *shows < much_higher * *would_show) return;
    std::vector<std::string> beside;
    for (std::size_t part = 0; part < search_.appliance.parts.size(); ++part)
      if (part != at_fault && carries(part, *fault, *shows, *would_show, reading.measurement))
        beside.push_back(search_.appliance.parts[part].title);
    if (beside.empty()) return;
    search_.remark(
        OHMWRIGHT_TEXT(
            "{point}: the {shown} goes through {beside}. A part that is open hides behind ways beside it: lift a "
            "lead, or pull the connector, and read it alone."),
        {{"point", search_.title(reading)},
         {"shown", shown_reading(reading, search_.say)},
         {"beside", listed(beside)}});
  }

 private:
  static std::string ohms(double value) {
    constexpr int digits = 2;
    return Sentences(UnitPreferences{}).quantity(AnyQuantity(Dimension::resistance, value), digits);
  }

  /// Whether what lies there is a contact, of which such a reading says that it is closed.
  bool is_across_a_contact(const TakenReading& reading) const {
    const auto part = part_between_probes(search_.appliance, reading.measurement.test_point);
    if (!part) return false;
    const auto model =
        locate::part_model(search_.appliance, *part, not_found, search_.prober.site(), Excitation::ohmmeter);
    return std::any_of(model.begin(), model.end(), [](const locate::ElementSpread& element) {
      return element.is_contact && std::min(element.from, element.to) == 0 && std::max(element.from, element.to) == 1;
    });
  }

  /// Whether the probes are at that part's own terminals with one of them lifted: then nothing lies beside it.
  bool is_read_alone(std::size_t part, const TakenReading& reading) const {
    const std::vector<PartTerminal>& lifted = search_.appliance.test_points[reading.measurement.test_point].lifted;
    return part_between_probes(search_.appliance, reading.measurement.test_point) == part &&
           std::any_of(lifted.begin(), lifted.end(),
                       [part](const PartTerminal& terminal) { return terminal.part == part; });
  }

  /// Whether the part is on a way beside the one at fault: with it at fault as well the reading would be far higher, or
  /// OL; with it alone it would not, since it is not in the sound way.
  bool carries(std::size_t part, std::uint16_t fault, double shows, double sound, const Measurement& measurement) {
    for (std::uint16_t other = 0; other < search_.faults.faults().size(); ++other) {
      if (search_.faults.faults()[other].fault.part != part) continue;
      if (rises({fault, other}, shows, measurement) && !rises({other}, sound, measurement)) return true;
    }
    return false;
  }

  bool rises(std::initializer_list<std::uint16_t> faults, double above, const Measurement& measurement) {
    const Candidate* candidate = search_.candidate_with(faults);
    if (candidate == nullptr) return false;
    const std::optional<double> then = search_.value_of(*candidate, measurement);
    return !then || *then > much_higher * above;
  }

  RemarkedSearch& search_;
};

}  // namespace

void remark_on_ohms(RemarkedSearch& search, const locate::TakenReading& reading, const locate::SeenReading& seen) {
  OhmRemarks remarks(search);
  remarks.low_range(reading, seen);
  remark_on_warm_contact(search, reading, seen);
  remarks.test_leads(reading);
  remarks.ways_beside(reading, seen);
}

}  // namespace ohmwright
