#include <ohmwright/appliance/looks.hpp>
#include <ohmwright/locate/weighed_readings.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_words.hpp>
#include <ohmwright/report/search_in_words.hpp>

namespace ohmwright {

namespace {

class EvidenceSentences {
 public:
  EvidenceSentences(const SearchInWords& words, LocateContent& content) : words_(words), content_(content) {}

  void evidence() {
    for (std::size_t i = 0; i < words_.report.readings.size(); ++i) {
      const locate::TakenReading& reading = words_.report.readings[i];
      const FindingArgument point{"point", test_point_title(words_.appliance, reading.measurement, words_.say)};
      const FindingArgument shown{"shown", shown_reading(reading, words_.say)};
      content_.evidence.push_back(words_.report.diagnosis.is_unexplained(i)
                                      ? unexplained(i, point, shown)
                                      : words_.say(OHMWRIGHT_TEXT("{point}: {shown}"), {point, shown}));
      if (!reading.note.empty()) content_.evidence.back() += " (" + reading.note + ")";
    }
    for (const locate::SymptomSign& sign : words_.report.signs.symptoms) {
      std::string text = symptom_text(words_.appliance, sign.symptom, words_.say);
      if (words_.report.signs.was_thawed && locate::is_of_frost(sign.symptom))
        text = words_.say(OHMWRIGHT_TEXT("{symptom} (seen after a thaw: it says less)"), {{"symptom", text}});
      content_.evidence.push_back(sign.is_there ? text
                                                : words_.say(OHMWRIGHT_TEXT("Not so: {symptom}"), {{"symptom", text}}));
    }
    for (const locate::LookSign& sign : words_.report.signs.looked_at) {
      const FindingArgument cause{"cause", look_words(words_.appliance, sign.look).title};
      content_.evidence.push_back(sign.found ? words_.say(OHMWRIGHT_TEXT("Looked at and found: {cause}"), {cause})
                                             : words_.say(OHMWRIGHT_TEXT("Looked at and in order: {cause}"), {cause}));
    }
    for (const locate::CodeSign& sign : words_.report.signs.codes) add_code(sign);
    if (words_.report.signs.thaw) add_thaw(*words_.report.signs.thaw);
    for (const locate::ReplacedSign& sign : words_.report.signs.replaced) {
      const FindingArgument part{"part", words_.appliance.parts[sign.part].title};
      content_.evidence.push_back(sign.cured
                                      ? words_.say(OHMWRIGHT_TEXT("Replaced, and it runs: {part}"), {part})
                                      : words_.say(OHMWRIGHT_TEXT("Replaced, and it is as before: {part}"), {part}));
    }
  }

 private:
  /// A reading that is more likely misread than meant. One that was read twice alike is no slip: nobody is sent to it
  /// again, and what the part itself may read tells more than this search.
  std::string unexplained(std::size_t index, const FindingArgument& point, const FindingArgument& shown) const {
    const std::optional<std::string> by = explained_by(words_.report.readings[index]);
    if (by)
      return words_.say(
          OHMWRIGHT_TEXT(
              "{point}: {shown}. A slip is likelier than what would explain it ({fault}): measure it again."),
          {point, shown, {"fault", *by}});
    if (locate::was_read_twice_alike(words_.report.reasoner.prober(), words_.report.readings, index))
      return words_.say(
          OHMWRIGHT_TEXT("{point}: {shown}. Read twice alike, and nothing of the possible faults explains "
                         "it: judge what lies between the probes by itself (ohmwright check)."),
          {point, shown});
    return words_.say(OHMWRIGHT_TEXT("{point}: {shown}. Nothing of the possible faults explains it: measure it again."),
                      {point, shown});
  }

  /// The likeliest of the faults listed that a reading is meant under rather than misread; none where there is none.
  std::optional<std::string> explained_by(const locate::TakenReading& reading) const {
    const Probe probe = words_.appliance.test_points[reading.measurement.test_point].probe;
    const locate::Prober& prober = words_.report.reasoner.prober();
    const auto seen = locate::seen_reading(reading, probe, prober.meter());
    if (!seen) return std::nullopt;
    const double slip = prober.model().misread_share * locate::likelihood_if_misread(*seen, probe, prober.model());
    for (std::size_t i = 0; i < words_.answers.size() && i < SearchInWords::most_listed; ++i) {
      const std::optional<std::size_t> instance = words_.likeliest_instance(words_.answers[i]);
      if (instance && locate::likelihood(words_.report.reasoner.predicted(*instance, reading.measurement), *seen, probe,
                                         prober.model()) > slip)
        return words_.label(words_.answers[i]);
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
          words_.say(OHMWRIGHT_TEXT("It was without power for {time}"), {{"time", time_text(*sign.unplugged)}}));
    if (sign.for_how_long)
      content_.evidence.push_back(
          words_.say(OHMWRIGHT_TEXT("After that it ran well for {time}"), {{"time", time_text(*sign.for_how_long)}}));
    else
      content_.evidence.push_back(sign.ran_well ? words_.say(OHMWRIGHT_TEXT("After a thaw it ran well for days"))
                                                : words_.say(OHMWRIGHT_TEXT("After a thaw it failed again at once")));
  }

  void add_code(const locate::CodeSign& sign) {
    for (const BoardCode& known : words_.appliance.codes) {
      if (known.code != sign.code) continue;
      const std::initializer_list<FindingArgument> words{
          {"code", known.code}, {"meaning", known.meaning}, {"source", known.source}};
      if (sign.count > 1) {
        content_.evidence.push_back(words_.say(OHMWRIGHT_TEXT("Code {code}, set {count} times: {meaning} ({source})"),
                                               {{"code", known.code},
                                                {"count", std::to_string(sign.count)},
                                                {"meaning", known.meaning},
                                                {"source", known.source}}));
        continue;
      }
      content_.evidence.push_back(
          sign.is_old ? words_.say(OHMWRIGHT_TEXT("An old code, {code}: {meaning} ({source}); it says less"), words)
                      : words_.say(OHMWRIGHT_TEXT("Code {code}: {meaning} ({source})"), words));
    }
  }

  const SearchInWords& words_;
  LocateContent& content_;
};

}  // namespace

void say_evidence(const SearchInWords& words, LocateContent& content) { EvidenceSentences(words, content).evidence(); }

}  // namespace ohmwright
