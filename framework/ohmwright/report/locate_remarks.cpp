#include <algorithm>
#include <cmath>

#include <ohmwright/locate/part_model.hpp>
#include <ohmwright/locate/reading_range.hpp>
#include <ohmwright/locate/slips.hpp>
#include <ohmwright/locate/weighed_readings.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_remarks.hpp>
#include <ohmwright/report/locate_words.hpp>

namespace ohmwright {

namespace {

using locate::Candidate;
using locate::Measurement;
using locate::PredictedOutcome;
using locate::SeenReading;
using locate::Standing;
using locate::TakenReading;

/// The share of its likelihood as found that a reading has after a set-up, if that most likely did not take.
constexpr double likely_missed = 0.2;
/// One way to be is the likeliest when it is by this factor.
constexpr double clearly_likelier = 1.2;
/// A closed contact in at least this share of good parts is closed, in no more than the rest it is open.
constexpr double nearly_all = 0.9;
/// A way beside a part matters where the reading without it is this much higher.
constexpr double much_higher = 1.5;
/// Volts above this share of the supply are nearly all of it; below the other, nearly nothing.
constexpr double nearly_all_volts = 0.8;
constexpr double nearly_no_volts = 0.1;
/// What is taken as cold, for a thermostat that would be closed then [K].
constexpr double cold_kelvin = 243.15;
/// What probes add on bare metal [ohm] (common practice, no source).
constexpr double probe_contact_ohm = 0.1;

class Remarks {
 public:
  Remarks(const LocateReport& report, const Sentences& say)
      : report_(report),
        say_(say),
        prober_(report.reasoner.prober()),
        appliance_(prober_.appliance()),
        faults_(report.reasoner.faults()) {
    const std::vector<locate::Reasoner::Weighed> likeliest = report.reasoner.likeliest(1);
    if (!likeliest.empty()) likeliest_ = likeliest.front().instance;
  }

  std::vector<std::string> make() {
    for (std::size_t i = 0; i < report_.readings.size(); ++i) of_reading(i);
    slips();
    unexplained_signs();
    two_at_once();
    return std::move(remarks_);
  }

 private:
  void remark(std::string_view pattern, std::initializer_list<FindingArgument> arguments = {}) {
    std::string text = say_(pattern, arguments);
    if (std::find(remarks_.begin(), remarks_.end(), text) == remarks_.end()) remarks_.push_back(std::move(text));
  }

  std::string title(const TakenReading& reading) const {
    return appliance_.test_points[reading.measurement.test_point].title;
  }
  Probe probe(const TakenReading& reading) const {
    return appliance_.test_points[reading.measurement.test_point].probe;
  }

  void of_reading(std::size_t index) {
    const TakenReading& reading = report_.readings[index];
    const auto seen = locate::seen_reading(reading, probe(reading), prober_.meter());
    if (!seen) return;
    disagreement(index, *seen);
    not_measured(reading);
    missed_set_up(reading, *seen);
    if (probe(reading) == Probe::ohms) {
      low_range(reading, *seen);
      warm_contact(reading, *seen);
      test_leads(reading);
      ways_beside(reading, *seen);
    } else if (probe(reading) == Probe::volts) {
      ghost(reading);
      live_neutral(reading, *seen);
    }
  }

  void disagreement(std::size_t index, const SeenReading& seen) {
    const TakenReading& reading = report_.readings[index];
    for (std::size_t earlier = 0; earlier < index; ++earlier) {
      const TakenReading& other = report_.readings[earlier];
      if (!(other.measurement == reading.measurement)) continue;
      const auto before = locate::seen_reading(other, probe(other), prober_.meter());
      if (!before || locate::agree(*before, seen)) continue;
      remark(
          OHMWRIGHT_TEXT("{point} gave {first} and then {second}: it comes and goes. Clip the probes on and move the "
                         "leads while you watch, one joint after the other."),
          {{"point", title(reading)}, {"first", shown_reading(other, say_)}, {"second", shown_reading(reading, say_)}});
    }
  }

  /// A reading that a temperature decides which nobody measured.
  void not_measured(const TakenReading& reading) {
    const locate::Site site = locate::after_set_up(appliance_, prober_.site(), reading.measurement.set_up);
    const Candidate* sound = candidate_with({});
    if (sound == nullptr) return;
    for (std::size_t zone = 0; zone < appliance_.zones.size(); ++zone) {
      if (!site.warming_up[zone] || !hangs_on(zone, site, *sound, reading.measurement)) continue;
      remark(OHMWRIGHT_TEXT("{point} hangs on the temperature of the {zone}, which nobody measured: it is taken for "
                            "anything from {cold} to {warm}. Measure it and say so (--zone {id}=...) before you doubt "
                            "what lies there."),
             {{"point", title(reading)},
              {"zone", appliance_.zones[zone].title},
              {"cold", say_.stated(site.zone_temperatures[zone])},
              {"warm", temperature_text(site.warming_up[zone]->to_kelvin, say_)},
              {"id", appliance_.zones[zone].id}});
    }
  }

  /// Whether a sound appliance reads otherwise there when that zone is cold than when it is warm.
  bool hangs_on(std::size_t zone, locate::Site site, const Candidate& sound, const Measurement& measurement) {
    constexpr double otherwise = 1.3;
    const double warm = site.warming_up[zone]->to_kelvin;
    site.warming_up[zone].reset();
    locate::Prober cold_one(faults_, site, prober_.meter(), prober_.model());
    const std::optional<double> cold = value_of(cold_one, sound, {measurement.test_point, {}});
    site.zone_temperatures[zone].value = AnyQuantity(Dimension::temperature, warm);
    locate::Prober warm_one(faults_, site, prober_.meter(), prober_.model());
    const std::optional<double> then = value_of(warm_one, sound, {measurement.test_point, {}});
    if (cold.has_value() != then.has_value()) return true;
    return cold && std::max(*cold, *then) > otherwise * std::max(1.0, std::min(*cold, *then));
  }

  /// A reading that a sound appliance shows as found, and not after that set-up.
  void missed_set_up(const TakenReading& reading, const SeenReading& seen) {
    const Candidate* sound = candidate_with({});
    const Measurement& measurement = reading.measurement;
    if (sound == nullptr || !measurement.set_up || appliance_.set_ups[*measurement.set_up].only_stated) return;
    const double as_found = likelihood_of(*sound, {measurement.test_point, {}}, seen);
    const double slip =
        prober_.model().misread_share * locate::likelihood_if_misread(seen, probe(reading), prober_.model());
    if (as_found > slip && likelihood_of(*sound, measurement, seen) < likely_missed * as_found)
      remark(
          OHMWRIGHT_TEXT("{point}: {shown} is what it shows as found. Did the set-up take ({set_up})? Bring it about "
                         "once more, watch for its sign, and read again before you believe it."),
          {{"point", title(reading)},
           {"shown", shown_reading(reading, say_)},
           {"set_up", appliance_.set_ups[*measurement.set_up].title}});
  }

  double likelihood_of(const Candidate& candidate, const Measurement& measurement, const SeenReading& seen) const {
    double sum = 0.0;
    for (const locate::Instance& instance : prober_.instances(candidate))
      sum +=
          instance.weight * locate::likelihood(prober_.predict(instance, measurement), seen,
                                               appliance_.test_points[measurement.test_point].probe, prober_.model());
    return sum;
  }

  /// OL where a good appliance reads more than the range shows, or may.
  void low_range(const TakenReading& reading, const SeenReading& seen) {
    const Candidate* sound = candidate_with({});
    if (seen.form != SeenReading::Form::over_range || sound == nullptr) return;
    const std::optional<double> would_show = value_of(*sound, reading.measurement);
    const double limit = locate::over_range_limit(prober_.meter(), reading.range).ohm;
    if (locate::is_of_unknown_range(reading, Probe::ohms, prober_.meter()))
      remark(
          OHMWRIGHT_TEXT("{point}: OL, but on which range is not known: taken for no more than \"above {limit}\". Say "
                         "the range that was set."),
          {{"point", title(reading)}, {"limit", ohms(limit)}});
    else if (would_show && *would_show > limit)
      remark(
          OHMWRIGHT_TEXT("{point}: OL on a range of {limit} tells nothing: a good one reads about {value}. Turn to a "
                         "higher range and read again."),
          {{"point", title(reading)}, {"limit", ohms(limit)}, {"value", ohms(*would_show)}});
  }

  static std::string ohms(double value) {
    constexpr int digits = 2;
    return Sentences(UnitPreferences{}).quantity(AnyQuantity(Dimension::resistance, value), digits);
  }

  /// Share of good parts that conduct between the first two terminals.
  double share_closed(std::size_t part, const locate::Site& site) const {
    double share = 0.0;
    for (const locate::ElementSpread& element :
         locate::part_model(appliance_, part, not_found, site, Excitation::ohmmeter)) {
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
    if (!appliance_.parts[part].zone || share_closed(part, site) > 1.0 - nearly_all) return false;
    make_cold(*appliance_.parts[part].zone, site);
    return share_closed(part, site) >= nearly_all;
  }

  static void make_cold(std::size_t zone, locate::Site& site) {
    site.zone_temperatures[zone].value = AnyQuantity(Dimension::temperature, cold_kelvin);
    site.zone_temperatures[zone].half_width = 0.0;
  }

  /// A reading that is high, or OL, because its way leads through a good contact that is warm.
  void warm_contact(const TakenReading& reading, const SeenReading& seen) {
    const bool reads_open = seen.form == SeenReading::Form::over_range ||
                            seen.form == SeenReading::Form::does_not_conduct ||
                            (seen.form == SeenReading::Form::value &&
                             seen.at > locate::scale_of(Probe::ohms).at(prober_.model().conducts_below));
    if (!reads_open) return;
    const locate::Site site = locate::after_set_up(appliance_, prober_.site(), reading.measurement.set_up);
    const auto alone = part_between_probes(appliance_, reading.measurement.test_point);
    for (std::size_t part = 0; part < appliance_.parts.size(); ++part) {
      if (!is_open_for_being_warm(part, site)) continue;
      const FindingArgument of{"part", appliance_.parts[part].title};
      const FindingArgument warm{"temperature", say_.stated(site.zone_temperatures[*appliance_.parts[part].zone])};
      if (part == alone)
        remark(OHMWRIGHT_TEXT(
                   "{part} is open because it is warm ({temperature}): a good one is, too. Read it again once it is "
                   "cold or chilled before you doubt it."),
               {of, warm});
      else if (leads_through(part, site, reading, seen))
        remark(
            OHMWRIGHT_TEXT("{point} leads through the {part}, which is open because it is warm ({temperature}): a "
                           "good one is, too. Read it again once that is cold or chilled before you doubt anything."),
            {{"point", title(reading)}, of, warm});
    }
  }

  /// Whether a good appliance would read far lower there if that part were cold.
  bool leads_through(std::size_t part, locate::Site site, const TakenReading& reading, const SeenReading& seen) {
    const Candidate* sound = candidate_with({});
    if (sound == nullptr) return false;
    const std::optional<double> now = value_of(*sound, reading.measurement);
    make_cold(*appliance_.parts[part].zone, site);
    locate::Prober cold(faults_, site, prober_.meter(), prober_.model());
    const std::optional<double> then = value_of(cold, *sound, {reading.measurement.test_point, {}});
    if (!then || (now && *now < much_higher * *then)) return false;
    return (seen.form != SeenReading::Form::value || seen.at > locate::scale_of(Probe::ohms).at(much_higher * *then));
  }

  /// Whether what lies there is a contact, of which such a reading says that it is closed.
  bool is_across_a_contact(const TakenReading& reading) const {
    const auto part = part_between_probes(appliance_, reading.measurement.test_point);
    if (!part) return false;
    const auto model = locate::part_model(appliance_, *part, not_found, prober_.site(), Excitation::ohmmeter);
    return std::any_of(model.begin(), model.end(), [](const locate::ElementSpread& element) {
      return element.is_contact && std::min(element.from, element.to) == 0 && std::max(element.from, element.to) == 1;
    });
  }

  void test_leads(const TakenReading& reading) {
    if (is_across_a_contact(reading)) return;
    const auto* shown = std::get_if<StatedValue>(&reading.observed);
    const StatedValue& leads = prober_.meter().lead_resistance;
    const double doubt = leads.half_width.value_or(0.0) + probe_contact_ohm;
    if (shown == nullptr || shown->value.value_in_si() > prober_.lead_resistance() + 3.0 * doubt) return;
    remark(
        OHMWRIGHT_TEXT(
            "{point}: of the {shown}, about {leads} are the test leads' own. Short the probes and zero them, or "
            "take off what they read. Whether a joint is good that near to nothing, only the drop across it "
            "under load tells."),
        {{"point", title(reading)}, {"shown", shown_reading(reading, say_)}, {"leads", say_.quantity(leads.value, 2)}});
  }

  static const PredictedOutcome* likeliest_of(const std::vector<PredictedOutcome>& outcomes) {
    const auto found = std::max_element(outcomes.begin(), outcomes.end(),
                                        [](const auto& a, const auto& b) { return a.weight < b.weight; });
    return found == outcomes.end() ? nullptr : &*found;
  }

  /// What a candidate would show, its likeliest instance, the middle one of several alike; nothing for OL and for what
  /// hangs in the air.
  std::optional<double> value_of(const Candidate& candidate, const Measurement& measurement) const {
    return value_of(prober_, candidate, measurement);
  }

  std::optional<double> value_of(locate::Prober& prober, const Candidate& candidate,
                                 const Measurement& measurement) const {
    const std::vector<locate::Instance> instances = prober.instances(candidate);
    const locate::Instance* of = &instances[instances.size() / 2];
    for (const locate::Instance& instance : instances)
      if (instance.weight > clearly_likelier * of->weight) of = &instance;
    const PredictedOutcome* outcome = likeliest_of(prober.predict(*of, measurement));
    if (outcome == nullptr || outcome->form != PredictedOutcome::Form::value) return std::nullopt;
    const locate::Scale scale = locate::scale_of(appliance_.test_points[measurement.test_point].probe);
    return scale.linear_below * std::sinh(outcome->mean);
  }

  const Candidate* candidate_with(std::initializer_list<std::uint16_t> faults) const {
    for (const Candidate& candidate : faults_.candidates())
      if (!candidate.outside_cause && candidate.faults.size() == faults.size() &&
          std::is_permutation(candidate.faults.begin(), candidate.faults.end(), faults.begin()))
        return &candidate;
    return nullptr;
  }

  /// The one fault of the likeliest explanation, where it is one.
  std::optional<std::uint16_t> only_fault() const {
    if (!likeliest_) return std::nullopt;
    const Candidate& candidate = *report_.reasoner.instance(*likeliest_).candidate;
    if (candidate.faults.size() != 1 || candidate.outside_cause) return std::nullopt;
    return candidate.faults.front();
  }

  /// Parts without which the reading would be far higher, where the likeliest fault lies between the probes as well.
  void ways_beside(const TakenReading& reading, const SeenReading& seen) {
    const std::optional<std::uint16_t> fault = only_fault();
    const Candidate* sound = candidate_with({});
    if (!fault || sound == nullptr || seen.form != SeenReading::Form::value) return;
    const Candidate& alone = *report_.reasoner.instance(*likeliest_).candidate;
    const std::optional<double> shows = value_of(alone, reading.measurement);
    const std::optional<double> would_show = value_of(*sound, reading.measurement);
    if (!shows || !would_show || *shows < much_higher * *would_show) return;
    std::vector<std::string> beside;
    const std::size_t at_fault = faults_.faults()[*fault].fault.part;
    for (std::size_t part = 0; part < appliance_.parts.size(); ++part)
      if (part != at_fault && carries(part, *fault, *shows, *would_show, reading.measurement))
        beside.push_back(appliance_.parts[part].title);
    if (beside.empty()) return;
    remark(OHMWRIGHT_TEXT(
               "{point}: the {shown} goes through {beside}. A part that is open hides behind ways beside it: lift a "
               "lead, or pull the connector, and read it alone."),
           {{"point", title(reading)}, {"shown", shown_reading(reading, say_)}, {"beside", listed(beside)}});
  }

  /// Whether the part is on a way beside the one at fault: with it at fault as well the reading would be far higher, or
  /// OL; with it alone it would not, since it is not in the sound way.
  bool carries(std::size_t part, std::uint16_t fault, double shows, double sound, const Measurement& measurement) {
    for (std::uint16_t other = 0; other < faults_.faults().size(); ++other) {
      if (faults_.faults()[other].fault.part != part) continue;
      if (rises({fault, other}, shows, measurement) && !rises({other}, sound, measurement)) return true;
    }
    return false;
  }

  bool rises(std::initializer_list<std::uint16_t> faults, double above, const Measurement& measurement) {
    const Candidate* candidate = candidate_with(faults);
    if (candidate == nullptr) return false;
    const std::optional<double> then = value_of(*candidate, measurement);
    return !then || *then > much_higher * above;
  }

  void ghost(const TakenReading& reading) {
    if (!likeliest_) return;
    const PredictedOutcome* outcome = likeliest_of(report_.reasoner.predicted(*likeliest_, reading.measurement));
    if (outcome == nullptr || outcome->form != PredictedOutcome::Form::floating) return;
    remark(OHMWRIGHT_TEXT("{point}: {shown} may be a ghost, on a wire that hangs in the air. Read it again on the "
                          "low-impedance input or with a load on it; treat it as live until then."),
           {{"point", title(reading)}, {"shown", shown_reading(reading, say_)}});
  }

  void live_neutral(const TakenReading& reading, const SeenReading& seen) {
    const Candidate* sound = candidate_with({});
    if (sound == nullptr || !likeliest_) return;
    const locate::Scale scale = locate::scale_of(Probe::volts);
    const double supply = appliance_.supply.voltage.value.value_in_si();
    const std::optional<double> would_show = value_of(*sound, reading.measurement);
    if (seen.form != SeenReading::Form::value || seen.at < scale.at(nearly_all_volts * supply) || !would_show ||
        *would_show > nearly_no_volts * supply)
      return;
    remark(OHMWRIGHT_TEXT(
               "{point}: nearly the whole supply where there should be none. The way to neutral is open: what looks "
               "like neutral is live. Unplug it before you touch anything."),
           {{"point", title(reading)}});
  }

  void slips() {
    for (const locate::Slip& slip : locate::find_slips(prober_, report_.diagnosis, report_.readings, report_.signs)) {
      const TakenReading& reading = report_.readings[slip.reading];
      const FindingArgument point{"point", title(reading)};
      const FindingArgument shown{"shown", shown_reading(reading, say_)};
      switch (slip.form) {
        case locate::Slip::Form::lead_left_on:
          remark(OHMWRIGHT_TEXT(
                     "{point}: {shown} is what it shows with the connector still in or the lead still on. Pull it and "
                     "measure again."),
                 {point, shown});
          break;
        case locate::Slip::Form::left_on_in_state:
          remark(OHMWRIGHT_TEXT("{point}: {shown} is what it shows with the connector still in or the lead still on, "
                                "{state}. Pull it and measure again."),
                 {point, shown, {"state", state_of(slip)}});
          break;
        case locate::Slip::Form::other_terminals:
          remark(OHMWRIGHT_TEXT("{point}: {shown} is what this shows: {other}. Were the probes on the right pins?"),
                 {point, shown, {"other", appliance_.test_points[slip.test_point].title}});
          break;
        case locate::Slip::Form::other_state:
          if (slip.set_up)
            remark(OHMWRIGHT_TEXT("{point}: {shown} is what it shows after: {set_up}. Was it so?"),
                   {point, shown, {"set_up", appliance_.set_ups[*slip.set_up].title}});
          else
            remark(OHMWRIGHT_TEXT("{point}: {shown} is what it shows as found. Did the set-up take?"), {point, shown});
          break;
      }
    }
  }

  /// A sign that nothing of what is looked for brings about.
  void unexplained_signs() {
    for (const locate::SymptomSign& sign : report_.signs.symptoms) {
      const auto shows = [&](const auto& effect) { return effect.symptom == sign.symptom; };
      bool is_explained = !sign.is_there || report_.diagnosis.sealed_system;
      for (std::size_t fault = 0; fault < faults_.faults().size() && !is_explained; ++fault)
        is_explained = std::any_of(faults_.mode(fault).symptoms.begin(), faults_.mode(fault).symptoms.end(), shows);
      for (const OutsideCause& cause : appliance_.outside_causes)
        is_explained = is_explained || std::any_of(cause.symptoms.begin(), cause.symptoms.end(), shows);
      if (!is_explained)
        remark(OHMWRIGHT_TEXT("Nothing that this appliance's file knows brings this about, so that it tells nothing "
                              "here: {symptom}."),
               {{"symptom", symptom_text(appliance_, sign.symptom, say_)}});
    }
  }

  std::string state_of(const locate::Slip& slip) const {
    return slip.set_up ? say_(OHMWRIGHT_TEXT("after: {set_up}"), {{"set_up", appliance_.set_ups[*slip.set_up].title}})
                       : say_(OHMWRIGHT_TEXT("as found"));
  }

  void two_at_once() {
    const bool named =
        report_.standing.form == Standing::Form::settled || report_.standing.form == Standing::Form::likely;
    if (!named || report_.standing.parts.size() < 2) return;
    remark(OHMWRIGHT_TEXT(
        "More than one part is at fault, and each hides the other: mending one alone does not make it run. "
        "Read each alone, and read again after each that is mended."));
  }

  const LocateReport& report_;
  const Sentences& say_;
  locate::Prober& prober_;
  const Appliance& appliance_;
  const locate::FaultList& faults_;
  std::optional<std::size_t> likeliest_;
  std::vector<std::string> remarks_;
};

}  // namespace

std::vector<std::string> locate_remarks(const LocateReport& report, const Sentences& say) {
  return Remarks(report, say).make();
}

}  // namespace ohmwright
