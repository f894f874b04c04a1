#include <algorithm>
#include <optional>

#include <ohmwright/locate/earth_leak.hpp>
#include <ohmwright/locate/repair_order.hpp>
#include <ohmwright/locate/weighed_readings.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/print.hpp>
#include <ohmwright/report/leak_warning.hpp>
#include <ohmwright/report/locate_words.hpp>
#include <ohmwright/report/search_in_words.hpp>

namespace ohmwright {

namespace {

using locate::AnswerSet;
using locate::Standing;

class HeadlineSentences {
 public:
  HeadlineSentences(const SearchInWords& words, LocateContent& content) : words_(words), content_(content) {}

  void headline() {
    const AnswerSet& first = words_.named;
    const std::string chance = percent_text(words_.report.standing.probability);
    switch (words_.report.standing.form) {
      case Standing::Form::sealed_system:
        content_.headline = words_.say(OHMWRIGHT_TEXT("STOP: this speaks of the sealed refrigerant system"));
        explain(OHMWRIGHT_TEXT(
            "Nothing that a meter finds here explains it. Work on the refrigerant circuit is for those licensed for "
            "it, under local codes: close the appliance, say so to the customer, and end here."));
        return;
      case Standing::Form::settled:
        content_.headline = words_.say(OHMWRIGHT_TEXT("FOUND: {fault}"), {{"fault", words_.label_of_the_sure(first)}});
        explain(OHMWRIGHT_TEXT("The chance that this is at fault is {chance}."), {{"chance", chance}});
        what_more_is_likely();
        return;
      case Standing::Form::likely:
        content_.headline = words_.say(OHMWRIGHT_TEXT("LIKELY: {fault}"), {{"fault", words_.label_of_the_sure(first)}});
        what_makes_it_sure(first, chance);
        what_more_is_likely();
        slip_of_units();
        return;
      case Standing::Form::no_more_steps:
        content_.headline = words_.say(OHMWRIGHT_TEXT("CAN'T TELL FURTHER with the steps that are allowed"));
        explain(words_.report.settings.allow_live
                    ? OHMWRIGHT_TEXT("No step left tells these apart. Compare with a part known good, or look again.")
                    : OHMWRIGHT_TEXT("No unpowered step left tells these apart. Live steps are for those qualified for "
                                     "them (--allow-live)."));
        if (!words_.report.settings.insulation_is_good)
          explain(
              OHMWRIGHT_TEXT("Where insulation was read and is within limits (--insulation-good), replacing a part "
                             "and trying it is a step, too."));
        order_of_replacing();
        return;
      case Standing::Form::open:
        break;
    }
    content_.headline = words_.say(OHMWRIGHT_TEXT("NOT FOUND YET"));
    if (words_.report.standing.lacks == Standing::Lacks::range)
      explain(
          OHMWRIGHT_TEXT("OL on a range that nobody stated condemns nothing: on a low range a good part shows it, "
                         "too. Say the range (TESTPOINT=\"OL on 20k\"), or turn to the highest and read again."));
    if (words_.report.standing.lacks == Standing::Lacks::reading)
      explain(
          OHMWRIGHT_TEXT("A code says what the control saw, not which part is at fault: by itself it condemns "
                         "nothing. Measure to confirm it before anything is replaced."));
    if (words_.report.standing.lacks == Standing::Lacks::temperature) {
      const Zone& zone = words_.appliance.zones[words_.report.standing.lacking];
      const bool is_known_now = locate::is_said(words_.report.reasoner.prober().site(), words_.report.standing.lacking);
      explain(
          is_known_now
              ? OHMWRIGHT_TEXT("What speaks against it was read before anybody measured the temperature of the {zone}, "
                               "and at one that it may well have had a good part shows just this. Read it again, now "
                               "that it is known, before anything is replaced.")
              : OHMWRIGHT_TEXT(
                    "Nobody measured the temperature of the {zone}, and at one that it may well have a good part "
                    "shows just this. Measure it there, beside the part, and say so (--zone {id}=...) before "
                    "anything is replaced."),
          {{"zone", zone.title}, {"id", zone.id}});
    }
    if (words_.report.standing.lacks == Standing::Lacks::judgement)
      explain(OHMWRIGHT_TEXT(
                  "{part} was read alone, twice alike, and no fault that is known of it explains what it showed. "
                  "As long as that is open nothing else is named: judge that part first (ohmwright check)."),
              {{"part", words_.appliance.parts[words_.report.standing.lacking].title}});
    if (words_.report.standing.lacks == Standing::Lacks::state) state_not_said();
    if (words_.report.standing.lacks == Standing::Lacks::unit) slip_of_units();
    explain(OHMWRIGHT_TEXT("The likeliest is {fault}, {chance}, alone or with another fault."),
            {{"fault", words_.label_with_share(first)}, {"chance", chance}});
  }

  /// How a part stands that a hand can turn: nobody said, and one way of it explains all.
  void state_not_said() {
    const SetState& other = words_.report.reasoner.prober().site().states_not_said[words_.report.standing.lacking];
    const PlacedPart& part = words_.appliance.parts[other.part];
    const Descriptor& descriptor = part.kind->descriptor();
    const StateDescriptor& state = descriptor.states[other.value.state];
    const TextEntry& value = state.values[other.value.value];
    explain(
        OHMWRIGHT_TEXT("Nobody said how the {part} stands, and with \"{value}\" a good one shows just this. Look, and "
                       "say so ({option}), or turn it and read again, before anything is replaced."),
        {{"part", part.title},
         {"value", words_.say.in_domain(descriptor.text_domain, value.english)},
         {"option", "--state " + part.id + "." + std::string(state.id) + "=" + std::string(value.id)}});
  }

  /// What a lost or an added k, or a point in another place, would explain.
  void slip_of_units() {
    const std::optional<locate::UnitSlip>& slip = words_.report.standing.slip;
    if (!slip) return;
    const locate::TakenReading& reading = words_.report.readings[slip->readings.front()];
    const FindingArgument point{"point", words_.appliance.test_points[reading.measurement.test_point].title};
    const FindingArgument shown{"shown", shown_reading(reading, words_.say)};
    const bool is_of_a_prefix = slip->factor >= 1000.0 || slip->factor <= 0.001;
    explain(
        is_of_a_prefix && slip->factor > 1.0
            ? OHMWRIGHT_TEXT("{point}: {shown} is a thousand times what a good one shows. Look at the display: is "
                             "there a k or an M, or was one read that is not there? Read it again.")
        : is_of_a_prefix
            ? OHMWRIGHT_TEXT("{point}: {shown} is a thousandth of what a good one shows. Look at the display: was a "
                             "k or an M overlooked, or left out in the typing? Read it again.")
        : slip->factor > 1.0
            ? OHMWRIGHT_TEXT("{point}: {shown} is ten times what a good one shows. Look where the point stands on "
                             "the display, and read it again.")
            : OHMWRIGHT_TEXT("{point}: {shown} is a tenth of what a good one shows. Look where the point stands on "
                             "the display, and read it again."),
        {point, shown});
  }

  /// A second fault that nothing has shown or cleared yet.
  void what_more_is_likely() {
    if (!words_.report.standing.is_with_more) return;
    const AnswerSet& all = words_.answers.front();
    explain(OHMWRIGHT_TEXT("Something else may be wrong beside it. Likeliest: {fault}, {chance}. See to that, too, "
                           "before you close up."),
            {{"fault", words_.label(all)}, {"chance", percent_text(all.probability)}});
  }

  /// Beside the verdict: what its maker took for something because nobody knew.
  void assumed_of_the_file() {
    if (words_.report.standing.form == Standing::Form::sealed_system) return;
    for (const std::string& sentence : words_.appliance.assumed) {
      const bool is_plain = sentence.find_first_of("{}") == std::string::npos;  // as a sentence of the catalogue is
      explain(OHMWRIGHT_TEXT("Assumed: {sentence}"), {{"sentence", is_plain ? words_.say(sentence) : sentence}});
    }
  }

  /// Before anything is looked at: the cabinet itself may be live. Once a leak was read, the page stops for that.
  void shock_or_trip() {
    if (!locate::speaks_of_leak_or_burning(words_.report.signs)) return;
    if (locate::any_tells_of_leak(words_.appliance, words_.report.readings, words_.report.reasoner.prober().meter()))
      return;
    explain(locate::speaks_of_burning(words_.report.signs)
                ? OHMWRIGHT_TEXT(
                      "It overheats or smells burnt: pull the plug, or switch it off at the breaker, and leave it "
                      "out. Feel nothing that may be hot or live. Before all else read the insulation of heater, fan "
                      "and wiring to the frame.")
                : OHMWRIGHT_TEXT(
                      "It shocks or trips: switch it off at the breaker before you touch it, pull the plug and leave "
                      "it out. Before all else read the insulation of heater, fan and wiring to the frame (ohmwright "
                      "check heater insulation=...)."));
  }

  /// Why no live step is offered though they are allowed, once the first insulation was read.
  void what_live_steps_wait_for() {
    const auto& report = words_.report;
    if (!report.settings.allow_live || report.settings.insulation_is_good) return;
    const locate::Prober& prober = report.reasoner.prober();
    bool is_any_to_earth = false;
    for (const locate::TakenReading& reading : report.readings) {
      if (locate::tells_of_leak(words_.appliance, reading, prober.meter()) ||
          locate::tells_of_short(words_.appliance, reading, prober.meter()))
        return;  // that is told by itself
      is_any_to_earth = is_any_to_earth || locate::is_to_earth(words_.appliance, reading.measurement);
    }
    const double leak = locate::probability_of_leak(
        words_.faults, locate::faults_that_leak(words_.faults, prober.site()), report.diagnosis);
    if (!is_any_to_earth ||
        locate::may_be_energised(words_.appliance, report.readings, report.signs, {false, leak}, prober.meter()))
      return;
    explain(OHMWRIGHT_TEXT("No live step yet: what was read to the frame does not reach all that gets the line, and a "
                           "leak somewhere still has {chance}. Read what is left to the frame, each part by itself "
                           "(ohmwright check heater insulation=...), and say so (locate: --insulation-good)."),
            {{"chance", percent_text(leak)}});
  }

  /// What was read between a conductor and the frame, before what it may come from.
  void leak_to_frame() {
    for (const locate::TakenReading& reading : words_.report.readings)
      if (locate::tells_of_leak(words_.appliance, reading, words_.report.reasoner.prober().meter()))
        content_.explanation.push_back(leak_warning(words_.appliance, reading, words_.say));
      else if (locate::tells_of_short(words_.appliance, reading, words_.report.reasoner.prober().meter()))
        explain(
            OHMWRIGHT_TEXT("STOP, do not plug it in: {point} shows {shown}, a short from one side of the supply to the "
                           "other. Find it without power."),
            {{"point", words_.appliance.test_points[reading.measurement.test_point].title},
             {"shown", shown_reading(reading, words_.say)}});
  }

 private:
  /// TESTPOINT@SETUP of the step that reads it so; without one how any is typed.
  std::string place_once_it_has_cooled() const {
    for (const locate::Step& step : words_.report.steps) {
      const std::optional<std::size_t>& set_up = step.measurement.set_up;
      if (step.form != locate::Step::Form::measure || !set_up || !words_.appliance.set_ups[*set_up].cools_down)
        continue;
      return words_.appliance.test_points[step.measurement.test_point].id + "@" + words_.appliance.set_ups[*set_up].id;
    }
    return "TESTPOINT@cooled";
  }

  /// What is left to do before a part that is likely at fault is bought.
  void what_makes_it_sure(const AnswerSet& first, const std::string& chance) {
    if (const std::optional<locate::FittingClass>& fits = words_.report.standing.fits) {
      explain(OHMWRIGHT_TEXT("The chance that this is at fault is {chance}, if the {part} is of the class that the "
                             "appliance's file states. All that was read is what a good one of another class shows: "
                             "{class}. Is it the right part for this appliance? Compare its mark with the parts "
                             "list, and read it at a second temperature (stirred ice water) before you buy."),
              {{"chance", chance}, {"part", words_.appliance.parts[fits->part].title}, {"class", fits->title}});
      return;
    }
    if (words_.report.standing.hangs_on_assumed_volts) {
      explain(
          OHMWRIGHT_TEXT("The chance that this is at fault is {chance}, if the supply is {volts}, as the appliance's "
                         "file assumes: a good heater of another supply shows just such ohms. Read volts and watts "
                         "on the plate, and make the file anew (ohmwright appliance new), before you buy."),
          {{"chance", chance}, {"volts", words_.say.stated(words_.appliance.supply.voltage)}});
      return;
    }
    if (const std::optional<std::size_t>& warm = words_.report.standing.warm_part) {
      explain(
          OHMWRIGHT_TEXT("The chance that this is at fault is {chance}, if it has stood without power for half an "
                         "hour: the winding of one that ran is warmer than what lies around it, and a good one "
                         "shows just this. Let the {part} cool, unplugged, for half an hour, read it again, and say "
                         "so: {place}=VALUE."),
          {{"chance", chance}, {"part", words_.appliance.parts[*warm].title}, {"place", place_once_it_has_cooled()}});
      return;
    }
    if (const std::optional<std::size_t> zone = zone_of_a_set_up_on_trust(first.parts)) {
      explain(OHMWRIGHT_TEXT("The chance that this is at fault is {chance}: you read it alone, after a set-up that may "
                             "not have taken. Measure the temperature of the {zone} and say so (--zone {id}=...) "
                             "before you buy."),
              {{"chance", chance},
               {"zone", words_.appliance.zones[*zone].title},
               {"id", words_.appliance.zones[*zone].id}});
      return;
    }
    if (!first.parts.empty() && shows_in_no_ohms(first)) {
      explain(
          OHMWRIGHT_TEXT("The chance that this is at fault is {chance}: no ohms of its own show it, and it is what is "
                         "left where the others read good. Look at it, or see it run, before you buy."),
          {{"chance", chance}});
      return;
    }
    if (were_read_alone_twice(first.parts)) {
      explain(OHMWRIGHT_TEXT("The chance that this is at fault is {chance}: you read it alone, twice alike. What could "
                             "still be behind that is said under \"Mind\" and by the next step."),
              {{"chance", chance}});
      return;
    }
    explain(first.parts.empty()
                ? OHMWRIGHT_TEXT("The chance that this is the cause is {chance}. Put it right and try the appliance "
                                 "before any cover comes off.")
            : were_read_alone(first.parts)
                ? OHMWRIGHT_TEXT("The chance that this is at fault is {chance}: you read it alone; set the probes on "
                                 "bare metal and read it once more before you buy.")
                : OHMWRIGHT_TEXT("The chance that this is at fault is {chance}: read that part alone, a lead off, "
                                 "before you buy (ohmwright check)."),
            {{"chance", chance}});
  }

  /// The zone that a set-up chilled or warmed, as nobody measured, before one of these was read alone.
  std::optional<std::size_t> zone_of_a_set_up_on_trust(const std::vector<std::size_t>& parts) const {
    const locate::Site& site = words_.report.reasoner.prober().site();
    for (const locate::TakenReading& reading : words_.report.readings) {
      const std::optional<std::size_t>& set_up = reading.measurement.set_up;
      const bool is_of_these = std::any_of(parts.begin(), parts.end(), [&](std::size_t part) {
        return locate::part_alone_at(words_.appliance.test_points[reading.measurement.test_point]) == part;
      });
      if (!set_up || words_.appliance.set_ups[*set_up].only_stated || !is_of_these) continue;
      for (const SetTemperature& row : words_.appliance.set_ups[*set_up].temperatures)
        if (!locate::is_said(site, row.zone)) return row.zone;
    }
    return std::nullopt;
  }

  /// Where parts that no reading tells apart are tried one by one, which only sound insulation allows.
  void order_of_replacing() {
    if (!words_.report.settings.insulation_is_good) return;
    const locate::RepairPlan plan =
        locate::repair_plan(words_.faults, words_.report.diagnosis, words_.report.settings.times);
    if (plan.parts.size() < 2) return;
    std::vector<std::string> parts;
    for (const std::size_t part : plan.parts) parts.push_back(words_.appliance.parts[part].title);
    explain(
        OHMWRIGHT_TEXT("If parts are replaced and tried one by one, the quickest order is: {parts} (about {minutes} "
                       "to be expected)."),
        {{"parts", listed(parts)}, {"minutes", minutes_text(plan.minutes)}});
  }

  /// Whether each of these was read across its own terminals, a lead of it off.
  bool were_read_alone(const std::vector<std::size_t>& parts) const {
    return !parts.empty() && std::all_of(parts.begin(), parts.end(), [this](std::size_t part) {
      return std::any_of(
          words_.report.readings.begin(), words_.report.readings.end(), [&](const locate::TakenReading& reading) {
            return locate::part_alone_at(words_.appliance.test_points[reading.measurement.test_point]) == part;
          });
    });
  }

  bool were_read_alone_twice(const std::vector<std::size_t>& parts) const {
    const auto& readings = words_.report.readings;
    return !parts.empty() && std::all_of(parts.begin(), parts.end(), [&](std::size_t part) {
      for (std::size_t i = 0; i < readings.size(); ++i)
        if (locate::part_alone_at(words_.appliance.test_points[readings[i].measurement.test_point]) == part &&
            locate::was_read_twice_alike(words_.report.reasoner.prober(), readings, i))
          return true;
      return false;
    });
  }

  /// Whether the likeliest fault shows as a good part does wherever ohms are read: ice, a board at rest.
  bool shows_in_no_ohms(const AnswerSet& answer) const {
    const std::span<const locate::Candidate> candidates = words_.faults.candidates();
    const auto sound = std::find_if(candidates.begin(), candidates.end(),
                                    [](const locate::Candidate& candidate) { return candidate.nothing_wrong(); });
    const std::optional<std::size_t> at_fault = words_.likeliest_instance(answer);
    if (sound == candidates.end() || !at_fault) return false;
    locate::Reasoner& reasoner = words_.report.reasoner;
    const std::size_t good = reasoner.first_instance(static_cast<std::size_t>(sound - candidates.begin()));
    const auto is_told_by = [&](const locate::Measurement& measurement) {
      return locate::is_possible(words_.appliance, measurement) &&
             !locate::look_alike(reasoner.predicted(*at_fault, measurement), reasoner.predicted(good, measurement));
    };
    for (std::size_t point = 0; point < words_.appliance.test_points.size(); ++point) {
      if (words_.appliance.test_points[point].probe != Probe::ohms) continue;
      if (is_told_by({point, {}})) return false;
      for (std::size_t set_up = 0; set_up < words_.appliance.set_ups.size(); ++set_up)
        if (is_told_by({point, set_up})) return false;
    }
    return true;
  }

  void explain(std::string_view pattern, std::initializer_list<FindingArgument> arguments = {}) {
    content_.explanation.push_back(words_.say(pattern, arguments));
  }

  const SearchInWords& words_;
  LocateContent& content_;
};

}  // namespace

void say_headline(const SearchInWords& words, LocateContent& content) {
  HeadlineSentences sentences(words, content);
  sentences.headline();
  sentences.assumed_of_the_file();
  sentences.shock_or_trip();
  sentences.what_live_steps_wait_for();
  sentences.leak_to_frame();
}

}  // namespace ohmwright
