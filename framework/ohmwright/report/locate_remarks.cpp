#include <algorithm>
#include <utility>

#include <ohmwright/appliance/looks.hpp>
#include <ohmwright/component/role.hpp>
#include <ohmwright/locate/innocent_ways.hpp>
#include <ohmwright/locate/slips.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_remarks.hpp>
#include <ohmwright/report/locate_words.hpp>
#include <ohmwright/report/remarked_search.hpp>

namespace ohmwright {

namespace {

using locate::SeenReading;
using locate::Standing;
using locate::TakenReading;

class Remarks {
 public:
  Remarks(const LocateReport& report, const Sentences& say) : search_(report, say) {}

  std::vector<std::string> make() {
    for (std::size_t i = 0; i < search_.report.readings.size(); ++i) of_reading(i);
    nothing_but_open();
    slips();
    unexplained_signs();
    two_at_once();
    does_not_move_on();
    return std::move(search_.remarks);
  }

 private:
  void of_reading(std::size_t index) {
    const TakenReading& reading = search_.report.readings[index];
    const auto seen = locate::seen_reading(reading, search_.probe(reading), search_.prober.meter());
    if (!seen) return;
    disagreement(index, *seen);
    remark_on_circumstances(search_, reading, *seen);
    if (search_.probe(reading) == Probe::ohms)
      remark_on_ohms(search_, reading, *seen);
    else if (search_.probe(reading) == Probe::volts)
      remark_on_volts(search_, reading, *seen);
  }

  /// Before a part is doubted: what would show OL wherever it is held.
  void nothing_but_open() {
    if (locate::points_that_all_show_open(search_.prober, search_.report.readings) < 2) return;
    search_.remark(OHMWRIGHT_TEXT(
        "Every reading is OL. A broken test lead, the wrong jack or a flat battery shows OL wherever the "
        "probes are: touch them together; they must read nearly nothing."));
  }

  void disagreement(std::size_t index, const SeenReading& seen) {
    const TakenReading& reading = search_.report.readings[index];
    for (std::size_t earlier = 0; earlier < index; ++earlier) {
      const TakenReading& other = search_.report.readings[earlier];
      if (!(other.measurement == reading.measurement)) continue;
      const auto before = locate::seen_reading(other, search_.probe(other), search_.prober.meter());
      if (!before || locate::agree(*before, seen)) continue;
      search_.remark(
          OHMWRIGHT_TEXT("{point} gave {first} and then {second}: it comes and goes. Clip the probes on and move the "
                         "leads while you watch, one joint after the other."),
          {{"point", search_.title(reading)},
           {"first", shown_reading(other, search_.say)},
           {"second", shown_reading(reading, search_.say)}});
    }
  }

  void slips() {
    for (const locate::Slip& slip :
         locate::find_slips(search_.prober, search_.report.diagnosis, search_.report.readings, search_.report.signs)) {
      const TakenReading& reading = search_.report.readings[slip.reading];
      const FindingArgument point{"point", search_.title(reading)};
      const FindingArgument shown{"shown", shown_reading(reading, search_.say)};
      switch (slip.form) {
        case locate::Slip::Form::lead_left_on:
          search_.remark(
              OHMWRIGHT_TEXT(
                  "{point}: {shown} is what it shows with the connector still in or the lead still on. Pull it and "
                  "measure again."),
              {point, shown});
          break;
        case locate::Slip::Form::left_on_in_state:
          search_.remark(
              OHMWRIGHT_TEXT("{point}: {shown} is what it shows with the connector still in or the lead still on, "
                             "{state}. Pull it and measure again."),
              {point, shown, {"state", state_of(slip)}});
          break;
        case locate::Slip::Form::other_terminals:
          search_.remark(
              OHMWRIGHT_TEXT("{point}: {shown} is what this shows: {other}. Were the probes on the right pins?"),
              {point, shown, {"other", search_.appliance.test_points[slip.test_point].title}});
          break;
        case locate::Slip::Form::other_state:
          if (slip.set_up)
            search_.remark(OHMWRIGHT_TEXT("{point}: {shown} is what it shows after: {set_up}. Was it so?"),
                           {point, shown, {"set_up", search_.appliance.set_ups[*slip.set_up].title}});
          else
            search_.remark(OHMWRIGHT_TEXT("{point}: {shown} is what it shows as found. Did the set-up take?"),
                           {point, shown});
          break;
      }
    }
  }

  /// A sign that nothing of what is looked for brings about.
  void unexplained_signs() {
    for (const locate::SymptomSign& sign : search_.report.signs.symptoms) {
      const auto shows = [&](const auto& effect) { return effect.symptom == sign.symptom; };
      bool is_explained = !sign.is_there || search_.report.diagnosis.sealed_system;
      for (std::size_t fault = 0; fault < search_.faults.faults().size() && !is_explained; ++fault)
        is_explained =
            std::any_of(search_.faults.mode(fault).symptoms.begin(), search_.faults.mode(fault).symptoms.end(), shows);
      for (const OutsideCause& cause : search_.appliance.outside_causes)
        is_explained = is_explained || std::any_of(cause.symptoms.begin(), cause.symptoms.end(), shows);
      if (!is_explained)
        search_.remark(
            OHMWRIGHT_TEXT("Nothing that this appliance's file knows brings this about, so that it tells nothing "
                           "here: {symptom}."),
            {{"symptom", symptom_text(search_.appliance, sign.symptom, search_.say)}});
    }
  }

  std::string state_of(const locate::Slip& slip) const {
    return slip.set_up ? search_.say(OHMWRIGHT_TEXT("after: {set_up}"),
                                     {{"set_up", search_.appliance.set_ups[*slip.set_up].title}})
                       : search_.say(OHMWRIGHT_TEXT("as found"));
  }

  void two_at_once() {
    const bool named = search_.report.standing.form == Standing::Form::settled ||
                       search_.report.standing.form == Standing::Form::likely;
    if (!named || search_.report.standing.parts.size() < 2) return;
    search_.remark(OHMWRIGHT_TEXT(
        "More than one part is at fault, and each hides the other: mending one alone does not make it run. "
        "Read each alone, and read again after each that is mended."));
  }

  /// The look that tells of faults of that part.
  std::optional<std::size_t> look_at(std::size_t part) const {
    for (std::size_t look = 0; look < number_of_looks(search_.appliance); ++look) {
      const std::vector<PartFault>* tells = faults_of_look(search_.appliance, look);
      if (tells != nullptr &&
          std::any_of(tells->begin(), tells->end(), [part](const PartFault& fault) { return fault.part == part; }))
        return look;
    }
    return std::nullopt;
  }

  bool was_looked_at(std::size_t look) const {
    const std::vector<locate::LookSign>& signs = search_.report.signs.looked_at;
    return std::any_of(signs.begin(), signs.end(), [look](const auto& sign) { return sign.look == look; });
  }

  /// A timer that measures good and is not the likeliest: its gears are nothing that a meter shows.
  void does_not_move_on() {
    const auto is_told = [&](std::string_view symptom) {
      const std::vector<locate::SymptomSign>& signs = search_.report.signs.symptoms;
      return std::any_of(signs.begin(), signs.end(),
                         [symptom](const auto& sign) { return sign.is_there && sign.symptom == symptom; });
    };
    if (!is_told("frost-whole-coil") && !is_told("no-defrost")) return;
    constexpr double likelier_than_not = 0.5;
    for (std::size_t part = 0; part < search_.appliance.parts.size(); ++part) {
      const PlacedPart& timer = search_.appliance.parts[part];
      const bool was_read =
          std::any_of(search_.report.readings.begin(), search_.report.readings.end(), [&](const TakenReading& reading) {
            return locate::is_between_terminals_of(search_.appliance.test_points[reading.measurement.test_point], part);
          });
      const bool is_turned =
          std::any_of(search_.appliance.set_ups.begin(), search_.appliance.set_ups.end(), [&](const SetUp& set_up) {
            return !set_up.live && !set_up.only_stated &&
                   std::any_of(set_up.states.begin(), set_up.states.end(),
                               [&](const SetState& row) { return row.part == part; });
          });
      if (!plays(timer.kind->descriptor().roles, role::times_defrost) || !was_read || !is_turned ||
          search_.report.diagnosis.parts[part] > likelier_than_not)
        continue;
      const std::optional<std::size_t> look = look_at(part);
      if (look && was_looked_at(*look)) continue;
      if (look) {
        const LookWords words = look_words(search_.appliance, *look);
        search_.remark(
            OHMWRIGHT_TEXT(
                "{part}: no ohms show whether it moves on by itself, and one whose gears slip reads good "
                "everywhere; ice on coil and fan then only follows. So {check} Say what you saw ({option})."),
            {{"part", timer.title}, {"check", words.check}, {"option", "--looked " + words.id + "=found|fine"}});
        continue;
      }
      search_.remark(
          OHMWRIGHT_TEXT("{part}: no ohms show whether it moves on by itself, and one whose gears slip reads good "
                         "everywhere; ice on coil and fan then only follows. Mark where the shaft stands, let it run "
                         "with its covers on for half an hour, unplug it and look (ohmwright check {kind})."),
          {{"part", timer.title}, {"kind", std::string(timer.kind->descriptor().id)}});
    }
  }

  RemarkedSearch search_;
};

}  // namespace

std::vector<std::string> locate_remarks(const LocateReport& report, const Sentences& say) {
  return Remarks(report, say).make();
}

}  // namespace ohmwright
