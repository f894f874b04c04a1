#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <ohmwright/locate/earth_leak.hpp>
#include <ohmwright/locate/repair_order.hpp>
#include <ohmwright/locate/weighed_readings.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/print.hpp>
#include <ohmwright/report/locate_remarks.hpp>
#include <ohmwright/report/locate_steps.hpp>
#include <ohmwright/report/locate_words.hpp>

namespace ohmwright {

namespace {

using locate::AnswerSet;
using locate::Standing;
using locate::Step;

/// Possible faults below this share are summed up as others; so are those past the eighth.
constexpr double least_listed = 0.005;
constexpr std::size_t most_listed = 8;
constexpr std::size_t most_expected = 4;
constexpr std::size_t most_instead = 3;

class LocateSentences {
 public:
  LocateSentences(const LocateReport& report, const Sentences& say)
      : report_(report),
        say_(say),
        faults_(report.reasoner.faults()),
        appliance_(faults_.appliance()),
        answers_(locate::answers(faults_, report.diagnosis)) {}

  LocateContent make() {
    headline();
    shock_or_trip();
    leak_to_frame();
    if (report_.standing.form == Standing::Form::sealed_system) return stop();
    possible();
    evidence();
    content_.remarks = locate_remarks(report_, say_);
    cautions_of_arrival();
    steps();
    content_.brief_cautions.push_back(local_codes());
    afterwards();
    assumed();
    return std::move(content_);
  }

 private:
  /// Nothing to replace, to measure or to weigh stands beside the stop.
  LocateContent stop() {
    evidence();
    cautions_of_arrival();
    content_.brief_cautions.push_back(local_codes());
    return std::move(content_);
  }

  std::string label(const AnswerSet& answer) const { return answer_label(faults_, report_.diagnosis, answer, say_); }

  std::size_t likeliest_candidate_of(const AnswerSet& answer) const {
    return locate::likeliest_candidate(faults_, report_.diagnosis, answer.parts, answer.outside_cause);
  }

  /// The fault that stands for its parts, with its own share where that is not nearly all of theirs.
  std::string label_with_share(const AnswerSet& answer) const {
    constexpr double nearly_all = 0.8;
    const double own = report_.diagnosis.candidates[likeliest_candidate_of(answer)];
    if (own >= nearly_all * answer.probability) return label(answer);
    return say_(OHMWRIGHT_TEXT("{fault} ({chance}), or another of its faults"),
                {{"fault", label(answer)}, {"chance", percent_text(own)}});
  }

  void headline() {
    const AnswerSet& first = answers_.front();
    const std::string chance = percent_text(report_.standing.probability);
    switch (report_.standing.form) {
      case Standing::Form::sealed_system:
        content_.headline = say_(OHMWRIGHT_TEXT("STOP: this speaks of the sealed refrigerant system"));
        explain(OHMWRIGHT_TEXT(
            "Nothing that a meter finds here explains it. Work on the refrigerant circuit is for those licensed for "
            "it, under local codes: close the appliance, say so to the customer, and end here."));
        return;
      case Standing::Form::settled:
        content_.headline = say_(OHMWRIGHT_TEXT("FOUND: {fault}"), {{"fault", label(first)}});
        explain(OHMWRIGHT_TEXT("The chance that this is at fault is {chance}."), {{"chance", chance}});
        return;
      case Standing::Form::likely:
        content_.headline = say_(OHMWRIGHT_TEXT("LIKELY: {fault}"), {{"fault", label(first)}});
        explain(
            were_read_alone(first.parts)
                ? OHMWRIGHT_TEXT("The chance that this is at fault is {chance}: you read it alone; set the probes on "
                                 "bare metal and read it once more before you buy.")
                : OHMWRIGHT_TEXT("The chance that this is at fault is {chance}: read that part alone, a lead off, "
                                 "before you buy (ohmwright check)."),
            {{"chance", chance}});
        return;
      case Standing::Form::no_more_steps:
        content_.headline = say_(OHMWRIGHT_TEXT("CAN'T TELL FURTHER with the steps that are allowed"));
        explain(report_.settings.allow_live
                    ? OHMWRIGHT_TEXT("No step left tells these apart. Compare with a part known good, or look again.")
                    : OHMWRIGHT_TEXT("No unpowered step left tells these apart. Live steps are for those qualified for "
                                     "them (--allow-live)."));
        order_of_replacing();
        return;
      case Standing::Form::open:
        break;
    }
    content_.headline = say_(OHMWRIGHT_TEXT("NOT FOUND YET"));
    if (report_.standing.lacks == Standing::Lacks::range)
      explain(
          OHMWRIGHT_TEXT("OL on a range that nobody stated condemns nothing: on a low range a good part shows it, "
                         "too. Say the range (TESTPOINT=\"OL on 20k\"), or turn to the highest and read again."));
    if (report_.standing.lacks == Standing::Lacks::reading)
      explain(
          OHMWRIGHT_TEXT("A code says what the control saw, not which part is at fault: by itself it condemns "
                         "nothing. Measure to confirm it before anything is replaced."));
    explain(OHMWRIGHT_TEXT("The likeliest is {fault}, {chance}, alone or with another fault."),
            {{"fault", label_with_share(first)}, {"chance", chance}});
  }

  /// Where parts that no reading tells apart are tried one by one, which only sound insulation allows.
  void order_of_replacing() {
    if (!report_.settings.insulation_is_good) return;
    const locate::RepairPlan plan = locate::repair_plan(faults_, report_.diagnosis, report_.settings.times);
    if (plan.parts.size() < 2) return;
    std::vector<std::string> parts;
    for (const std::size_t part : plan.parts) parts.push_back(appliance_.parts[part].title);
    explain(
        OHMWRIGHT_TEXT("If parts are replaced and tried one by one, the quickest order is: {parts} (about {minutes} "
                       "to be expected)."),
        {{"parts", listed(parts)}, {"minutes", minutes_text(plan.minutes)}});
  }

  /// Before anything is looked at: the cabinet itself may be live.
  void shock_or_trip() {
    if (!locate::speaks_of_leak_or_burning(report_.signs)) return;
    explain(locate::speaks_of_burning(report_.signs)
                ? OHMWRIGHT_TEXT(
                      "It overheats or smells burnt: pull the plug, or switch it off at the breaker, and leave it "
                      "out. Feel nothing that may be hot or live. Before all else read the insulation of heater, fan "
                      "and wiring to the frame.")
                : OHMWRIGHT_TEXT(
                      "It shocks or trips: switch it off at the breaker before you touch it, pull the plug and leave "
                      "it out. Before all else read the insulation of heater, fan and wiring to the frame (ohmwright "
                      "check heater insulation=...)."));
  }

  /// What was read between a conductor and the frame, before what it may come from.
  void leak_to_frame() {
    for (const locate::TakenReading& reading : report_.readings)
      if (locate::tells_of_leak(appliance_, reading, report_.reasoner.prober().meter()))
        explain(
            OHMWRIGHT_TEXT("STOP, do not energise it: {point} shows {shown}, where insulation to the frame belongs. "
                           "The frame may become live. Leave the plug out until what leaks is mended and an "
                           "insulation tester has read the insulation."),
            {{"point", appliance_.test_points[reading.measurement.test_point].title},
             {"shown", shown_reading(reading, say_)}});
      else if (locate::tells_of_short(appliance_, reading, report_.reasoner.prober().meter()))
        explain(
            OHMWRIGHT_TEXT("STOP, do not plug it in: {point} shows {shown}, a short from one side of the supply to the "
                           "other. Find it without power."),
            {{"point", appliance_.test_points[reading.measurement.test_point].title},
             {"shown", shown_reading(reading, say_)}});
  }

  /// Whether each of these was read across its own terminals, a lead of it off.
  bool were_read_alone(const std::vector<std::size_t>& parts) const {
    return !parts.empty() && std::all_of(parts.begin(), parts.end(), [this](std::size_t part) {
      return std::any_of(report_.readings.begin(), report_.readings.end(), [&](const locate::TakenReading& reading) {
        const std::size_t point = reading.measurement.test_point;
        const std::vector<PartTerminal>& lifted = appliance_.test_points[point].lifted;
        return part_between_probes(appliance_, point) == part &&
               std::any_of(lifted.begin(), lifted.end(),
                           [part](const PartTerminal& lead) { return lead.part == part; });
      });
    });
  }

  void explain(std::string_view pattern, std::initializer_list<FindingArgument> arguments = {}) {
    content_.explanation.push_back(say_(pattern, arguments));
  }

  void possible() {
    double listed = 0.0;
    for (const AnswerSet& answer : answers_) {
      if (content_.possible.size() == most_listed || answer.probability < least_listed) break;
      content_.possible.push_back({label_with_share(answer), answer.probability});
      listed += answer.probability;
    }
    content_.others = 1.0 - listed < least_listed ? 0.0 : 1.0 - listed;
  }

  void evidence() {
    for (std::size_t i = 0; i < report_.readings.size(); ++i) {
      const locate::TakenReading& reading = report_.readings[i];
      const FindingArgument point{"point", test_point_title(appliance_, reading.measurement, say_)};
      const FindingArgument shown{"shown", shown_reading(reading, say_)};
      const std::optional<std::string> by = report_.diagnosis.is_unexplained(i) ? explained_by(reading) : std::nullopt;
      content_.evidence.push_back(
          !report_.diagnosis.is_unexplained(i) ? say_(OHMWRIGHT_TEXT("{point}: {shown}"), {point, shown})
          : by                                 ? say_(OHMWRIGHT_TEXT(
                                                          "{point}: {shown}. A slip is likelier than what would explain it ({fault}): measure "
                                                                                          "it again."),
                                                      {point, shown, {"fault", *by}})
               : say_(OHMWRIGHT_TEXT("{point}: {shown}. Nothing of the possible faults explains it: measure it again."),
                      {point, shown}));
      if (!reading.note.empty()) content_.evidence.back() += " (" + reading.note + ")";
    }
    for (const locate::SymptomSign& sign : report_.signs.symptoms) {
      std::string text = symptom_text(appliance_, sign.symptom, say_);
      if (report_.signs.was_thawed && locate::is_of_frost(sign.symptom))
        text = say_(OHMWRIGHT_TEXT("{symptom} (seen after a thaw: it says less)"), {{"symptom", text}});
      content_.evidence.push_back(sign.is_there ? text
                                                : say_(OHMWRIGHT_TEXT("Not so: {symptom}"), {{"symptom", text}}));
    }
    for (const locate::OutsideSign& sign : report_.signs.looked_at) {
      const FindingArgument cause{"cause", appliance_.outside_causes[sign.outside_cause].title};
      content_.evidence.push_back(sign.found ? say_(OHMWRIGHT_TEXT("Looked at and found: {cause}"), {cause})
                                             : say_(OHMWRIGHT_TEXT("Looked at and in order: {cause}"), {cause}));
    }
    for (const locate::CodeSign& sign : report_.signs.codes) add_code(sign);
    if (report_.signs.thaw) add_thaw(*report_.signs.thaw);
    for (const locate::ReplacedSign& sign : report_.signs.replaced) {
      const FindingArgument part{"part", appliance_.parts[sign.part].title};
      content_.evidence.push_back(sign.cured ? say_(OHMWRIGHT_TEXT("Replaced, and it runs: {part}"), {part})
                                             : say_(OHMWRIGHT_TEXT("Replaced, and it is as before: {part}"), {part}));
    }
  }

  /// The likeliest of the faults listed that a reading is meant under rather than misread; none where there is none.
  std::optional<std::string> explained_by(const locate::TakenReading& reading) const {
    const Probe probe = appliance_.test_points[reading.measurement.test_point].probe;
    const locate::Prober& prober = report_.reasoner.prober();
    const auto seen = locate::seen_reading(reading, probe, prober.meter());
    if (!seen) return std::nullopt;
    const double slip = prober.model().misread_share * locate::likelihood_if_misread(*seen, probe, prober.model());
    for (std::size_t i = 0; i < answers_.size() && i < most_listed; ++i) {
      const std::optional<std::size_t> instance = likeliest_instance(answers_[i]);
      if (instance && locate::likelihood(report_.reasoner.predicted(*instance, reading.measurement), *seen, probe,
                                         prober.model()) > slip)
        return label(answers_[i]);
    }
    return std::nullopt;
  }

  /// "24 h", "5.0 d".
  static std::string time_text(const Duration& time) {
    constexpr double in_days_from = 2.0 * 86400.0;
    UnitPreferences units;
    units.prefer(*Unit::named(time.value() < in_days_from ? "h" : "d", Dimension::duration));
    return Sentences(units).quantity(time, 2);
  }

  void add_thaw(const locate::ThawSign& sign) {
    if (sign.unplugged)
      content_.evidence.push_back(
          say_(OHMWRIGHT_TEXT("It was without power for {time}"), {{"time", time_text(*sign.unplugged)}}));
    if (sign.for_how_long)
      content_.evidence.push_back(
          say_(OHMWRIGHT_TEXT("After that it ran well for {time}"), {{"time", time_text(*sign.for_how_long)}}));
    else
      content_.evidence.push_back(sign.ran_well ? say_(OHMWRIGHT_TEXT("After a thaw it ran well for days"))
                                                : say_(OHMWRIGHT_TEXT("After a thaw it failed again at once")));
  }

  void add_code(const locate::CodeSign& sign) {
    for (const BoardCode& known : appliance_.codes) {
      if (known.code != sign.code) continue;
      const std::initializer_list<FindingArgument> words{
          {"code", known.code}, {"meaning", known.meaning}, {"source", known.source}};
      if (sign.count > 1) {
        content_.evidence.push_back(say_(OHMWRIGHT_TEXT("Code {code}, set {count} times: {meaning} ({source})"),
                                         {{"code", known.code},
                                          {"count", std::to_string(sign.count)},
                                          {"meaning", known.meaning},
                                          {"source", known.source}}));
        continue;
      }
      content_.evidence.push_back(
          sign.is_old ? say_(OHMWRIGHT_TEXT("An old code, {code}: {meaning} ({source}); it says less"), words)
                      : say_(OHMWRIGHT_TEXT("Code {code}: {meaning} ({source})"), words));
    }
  }

  void steps() {
    const bool goes_on =
        report_.standing.form == Standing::Form::open || report_.standing.form == Standing::Form::likely;
    if (!goes_on || report_.steps.empty()) return;
    const Step& first = report_.steps.front();
    StepContent next;
    next.title = step_title(appliance_, first, say_);
    if (first.form == Step::Form::measure) {
      next.before = work_lines(appliance_, work_before(report_.work, first), first.measurement, say_);
      describe_expected(first, next);
      for (const std::string& id : locate::cautions_of(appliance_, report_.work, first.measurement)) {
        next.cautions.push_back(caution_words(appliance_, id, true, say_));
        caution(id);
      }
      next.cautions.push_back(local_codes());
    }
    content_.next = std::move(next);
    for (std::size_t i = 1; i < report_.steps.size() && content_.instead.size() < most_instead; ++i)
      content_.instead.push_back(step_title(appliance_, report_.steps[i], say_));
  }

  void describe_expected(const Step& step, StepContent& next) const {
    for (const AnswerSet& answer : answers_) {
      if (next.expected.size() == most_expected || answer.probability < least_listed) break;
      if (const std::optional<std::string> shows = shown_by(answer, step.measurement))
        next.expected.push_back({label(answer), *shows});
    }
    const auto is_same = [&](const ExpectedReading& row) { return row.shows == next.expected.front().shows; };
    if (next.expected.empty() || !std::all_of(next.expected.begin(), next.expected.end(), is_same)) return;
    // The step is there for what would show another value: the likeliest that does.
    constexpr std::size_t most_asked = 40;
    for (std::size_t i = 0; i < answers_.size() && i < most_asked; ++i) {
      const std::optional<std::string> shows = shown_by(answers_[i], step.measurement);
      if (!shows || *shows == next.expected.front().shows) continue;
      if (next.expected.size() == most_expected) next.expected.pop_back();
      next.expected.push_back({label(answers_[i]), *shows});
      return;
    }
  }

  /// What the fault that stands for an answer would show: the likeliest of the ways it may be.
  std::optional<std::string> shown_by(const AnswerSet& answer, const locate::Measurement& measurement) const {
    const std::optional<std::size_t> instance = likeliest_instance(answer);
    if (!instance) return std::nullopt;
    return shown_text(report_.reasoner.predicted(*instance, measurement),
                      appliance_.test_points[measurement.test_point].probe, say_);
  }

  /// Of the fault that the answer is called by, not of another of the same part.
  std::optional<std::size_t> likeliest_instance(const AnswerSet& answer) const {
    constexpr std::size_t asked = 400;
    const std::size_t candidate = likeliest_candidate_of(answer);
    for (const locate::Reasoner::Weighed& weighed : report_.reasoner.likeliest(asked))
      if (report_.reasoner.instance(weighed.instance).candidate == &faults_.candidates()[candidate])
        return weighed.instance;
    return report_.reasoner.first_instance(candidate);
  }

  std::string local_codes() const {
    return say_(OHMWRIGHT_TEXT("Local codes and licensed practice come before this list"));
  }

  /// Each once, in the order in which they come.
  void caution(const std::string& id) {
    const std::string brief = caution_words(appliance_, id, true, say_);
    if (std::find(content_.brief_cautions.begin(), content_.brief_cautions.end(), brief) !=
        content_.brief_cautions.end())
      return;
    content_.brief_cautions.push_back(brief);
    content_.cautions.push_back(caution_words(appliance_, id, false, say_));
  }

  void cautions_of_arrival() {
    for (const std::string& id : locate::cautions_of_arrival(appliance_)) caution(id);
  }

  void afterwards() {
    const bool named =
        report_.standing.form == Standing::Form::settled || report_.standing.form == Standing::Form::likely;
    if (!named) return;
    causes_first();
    for (const std::size_t part : answers_.front().parts) {
      if (is_replaced(part)) continue;
      content_.afterwards.push_back(
          say_(OHMWRIGHT_TEXT(
                   "Mend or replace: {part}. What can be thawed, freed, cleaned or remade needs no new part; a new "
                   "one is a true equivalent (ohmwright compare {kind})."),
               {{"part", appliance_.parts[part].title},
                {"kind", std::string(appliance_.parts[part].kind->descriptor().id)}}));
    }
    // What is cold is defrosted; the rest has no such run.
    content_.afterwards.push_back(
        say_(appliance_.refrigerant == "none"
                 ? OHMWRIGHT_TEXT(
                       "Prove it: read again what was wrong, insulation to the frame before you plug in, then watch "
                       "one whole run with every cover on and somebody there.")
                 : OHMWRIGHT_TEXT(
                       "Prove it: read again what was wrong, insulation to the frame before you plug in, then watch "
                       "one forced defrost with a proved limit, a clear drain, a time limit and somebody there.")));
  }

  bool is_replaced(std::size_t part) const {
    return std::any_of(report_.signs.replaced.begin(), report_.signs.replaced.end(),
                       [part](const locate::ReplacedSign& sign) { return sign.part == part && sign.cured; });
  }

  /// A part that was the consequence of another fails again unless that one is mended first.
  void causes_first() {
    const locate::Candidate* candidate = likeliest_candidate();
    if (candidate == nullptr) return;
    for (const std::uint16_t fault : candidate->faults) {
      if (!faults_.mode(fault).looks_upstream.empty())
        content_.afterwards.push_back(say_(
            OHMWRIGHT_TEXT(
                "{part}: {fault}. That may be the consequence of another fault; a new part alone goes the same way."),
            {{"part", appliance_.parts[faults_.faults()[fault].fault.part].title},
             {"fault", fault_title(faults_, fault, say_)}}));
      for (const Consequence& row : appliance_.consequences) {
        if (!(row.effect == faults_.faults()[fault].fault)) continue;
        const std::string cause =
            row.cause ? appliance_.parts[row.cause->part].title : appliance_.outside_causes[*row.outside_cause].title;
        content_.afterwards.push_back(
            say_(OHMWRIGHT_TEXT("Look for what may have caused it first: {cause}"), {{"cause", cause}}));
      }
      for (const std::string_view role : faults_.mode(fault).looks_upstream) add_upstream(role, fault);
    }
  }

  void add_upstream(std::string_view role, std::size_t fault) {
    for (std::size_t i = 0; i < appliance_.parts.size(); ++i) {
      const auto& roles = appliance_.parts[i].kind->descriptor().roles;
      if (i == faults_.faults()[fault].fault.part || std::find(roles.begin(), roles.end(), role) == roles.end())
        continue;
      const std::string line = say_(OHMWRIGHT_TEXT("Look for what may have caused it first: {cause}"),
                                    {{"cause", appliance_.parts[i].title}});
      if (std::find(content_.afterwards.begin(), content_.afterwards.end(), line) == content_.afterwards.end())
        content_.afterwards.push_back(line);
    }
  }

  const locate::Candidate* likeliest_candidate() const {
    const std::optional<std::size_t> instance = likeliest_instance(answers_.front());
    return instance ? report_.reasoner.instance(*instance).candidate : nullptr;
  }

  /// "heater.open 2, link.acted 1": of the faults of the answers listed, each once, as --weights names them.
  std::string weights() const {
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < answers_.size() && i < most_listed; ++i) {
      const std::optional<std::size_t> instance = likeliest_instance(answers_[i]);
      if (!instance) continue;
      for (const std::uint16_t fault : report_.reasoner.instance(*instance).candidate->faults) {
        const double weight = faults_.faults()[fault].odds / report_.priors.odds_of_unit_weight;
        const std::string line = faults_.name(fault) + " " + fmt::format("{:.3g}", weight);
        if (std::find(lines.begin(), lines.end(), line) == lines.end()) lines.push_back(line);
      }
    }
    return lines.empty() ? say_(OHMWRIGHT_TEXT("none")) : listed(lines);
  }

  void assumed() {
    content_.assumed.push_back(
        say_(OHMWRIGHT_TEXT("How often each fault is there: assumed weights of the kinds and of the appliance's file "
                            "(--weights replaces them); {percent} % for a fault of weight 1, at most {most} at once."),
             {{"percent", 100.0 * report_.priors.odds_of_unit_weight},
              {"most", static_cast<double>(report_.priors.most_faults)}}));
    content_.assumed.push_back(say_(OHMWRIGHT_TEXT("Weights of the likeliest: {weights}."), {{"weights", weights()}}));
    content_.assumed.push_back(say_(OHMWRIGHT_TEXT("{percent} % of all readings are misread."),
                                    {{"percent", 100.0 * report_.reasoner.prober().model().misread_share}}));
    content_.assumed.push_back(
        say_(OHMWRIGHT_TEXT("{percent} % of all set-ups did not take, {fewer} % of those that a thermometer confirms."),
             {{"percent", 100.0 * report_.reasoner.prober().model().set_up_missed},
              {"fewer", 100.0 * report_.reasoner.prober().model().temperature_missed}}));
    temperatures();
    content_.assumed.push_back(say_(OHMWRIGHT_TEXT("Meter: {meter}"), {{"meter", report_.meter_title}}));
  }

  void temperatures() {
    const locate::Site& site = report_.reasoner.prober().site();
    for (std::size_t i = 0; i < appliance_.zones.size(); ++i) {
      const FindingArgument zone{"zone", appliance_.zones[i].title};
      const FindingArgument as_found{"temperature", say_.stated(site.zone_temperatures[i])};
      if (site.warming_up[i])
        content_.assumed.push_back(say_(
            OHMWRIGHT_TEXT("Temperature of the {zone}: not measured, anything from {temperature} to {warmest} (--zone "
                           "{id}=... says it)."),
            {zone,
             as_found,
             {"warmest", temperature_text(site.warming_up[i]->to_kelvin, say_)},
             {"id", appliance_.zones[i].id}}));
      else
        content_.assumed.push_back(say_(OHMWRIGHT_TEXT("Temperature of the {zone}: {temperature}."), {zone, as_found}));
    }
  }

  const LocateReport& report_;
  const Sentences& say_;
  const locate::FaultList& faults_;
  const Appliance& appliance_;
  std::vector<AnswerSet> answers_;
  LocateContent content_;
};

}  // namespace

LocateContent locate_content(const LocateReport& report, const Sentences& say) {
  return LocateSentences(report, say).make();
}

}  // namespace ohmwright
