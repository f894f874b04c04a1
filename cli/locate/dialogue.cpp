#include "locate/dialogue.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <istream>
#include <ostream>
#include <sstream>
#include <vector>

#include <ohmwright/locate/reading_range.hpp>
#include <ohmwright/locate/weighed_readings.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_report.hpp>

#include "locate/pages.hpp"
#include "locate/words.hpp"
#include "refusal_text.hpp"

namespace ohmwright::cli {

namespace {

constexpr std::string_view unsaid = "=unknown";

class Dialogue {
 public:
  Dialogue(locate::Search& search, const TypedReadings& how, std::istream& in, Environment& environment,
           const ValueSource& source, std::vector<GivenAnswer>& given)
      : search_(search),
        appliance_(search.reasoner().prober().appliance()),
        how_(how),
        meter_(how.meter),
        units_(how.units),
        in_(in),
        environment_(environment),
        source_(source),
        given_(given) {}

  std::optional<std::string> run() {
    if (given_.empty()) ask_signs();
    while (!stopped_ && !said_of_zone_) {
      search_.think();
      reply();
      const locate::Standing::Form form = search_.standing().form;
      const bool goes_on = form == locate::Standing::Form::open || form == locate::Standing::Form::likely;
      if (!goes_on || search_.steps().empty() || chosen_ >= search_.steps().size()) break;
      offer(search_.steps()[chosen_]);
    }
    return said_of_zone_;
  }

 private:
  std::string say(std::string_view pattern, std::initializer_list<FindingArgument> arguments = {}) const {
    return Sentences(units_)(pattern, arguments);
  }
  void line(const std::string& text, std::string_view indent = "") {
    environment_.out << paragraph(text, environment_.page.width, indent, indent);
  }

  /// The next line typed, or nothing at the end of the input, which stops the dialogue.
  std::optional<std::string> answer(const std::string& prompt) {
    environment_.out << prompt << std::flush;
    std::string typed;
    if (!std::getline(in_, typed)) {
      stopped_ = true;
      environment_.out << '\n';
      return std::nullopt;
    }
    const auto blank = [](char c) { return c == ' ' || c == '\t' || c == '\r'; };
    while (!typed.empty() && blank(typed.back())) typed.pop_back();
    return typed.substr(static_cast<std::size_t>(std::find_if_not(typed.begin(), typed.end(), blank) - typed.begin()));
  }

  void ask_signs() {
    given_.push_back({GivenAnswer::Form::signs, {}, search_.signs()});
    ask_symptoms();
    if (!stopped_) ask_thaw();
  }

  void ask_symptoms() {
    const std::vector<std::string> known = symptoms_of(appliance_);
    line(say(OHMWRIGHT_TEXT(
        "What do you see? Type the numbers, with blanks between them; 0 for none of these. Leave the ice as it "
        "is until you have looked.")));
    const Sentences in_words(units_);
    for (std::size_t i = 0; i < known.size(); ++i)
      line(std::to_string(i + 1) + "  " + symptom_text(appliance_, known[i], in_words), "  ");
    while (const std::optional<std::string> typed = answer("> ")) {
      const std::optional<std::vector<std::size_t>> numbers = numbers_in(*typed, known.size());
      if (!numbers) {
        line(say(OHMWRIGHT_TEXT("Type numbers from 1 to {last}, with blanks between them, or 0 for none."),
                 {{"last", std::to_string(known.size())}}));
        continue;
      }
      for (const std::size_t number : *numbers) search_.signs().symptoms.push_back({known[number - 1], true});
      return;
    }
  }

  /// The numbers of a line, each from 1 to `last`; none for "0" or an empty line; nothing where it is anything else.
  static std::optional<std::vector<std::size_t>> numbers_in(const std::string& typed, std::size_t last) {
    std::vector<std::size_t> numbers;
    std::istringstream words(typed);
    for (std::string word; words >> word;) {
      std::size_t number = 0;
      const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), number);
      if (error != std::errc() || end != word.data() + word.size() || number > last) return std::nullopt;
      if (number > 0 && std::find(numbers.begin(), numbers.end(), number) == numbers.end()) numbers.push_back(number);
    }
    return numbers;
  }

  void ask_thaw() {
    line(say(OHMWRIGHT_TEXT("Was it lately without power for long enough to thaw?")));
    line("1  " + say(OHMWRIGHT_TEXT("no, or nobody knows")), "  ");
    line("2  " + say(OHMWRIGHT_TEXT("yes, and then it ran well for days")), "  ");
    line("3  " + say(OHMWRIGHT_TEXT("yes, and it failed again at once")), "  ");
    while (const std::optional<std::string> typed = answer("> ")) {
      if (*typed == "2" || *typed == "3") search_.signs().thaw = locate::ThawSign{{}, *typed == "2", {}};
      if (*typed == "1" || search_.signs().thaw) return;
      line(say(OHMWRIGHT_TEXT("Type one of the digits.")));
    }
  }

  void offer(const locate::Step& step) {
    shown_.assign(search_.steps().begin(), search_.steps().end());
    std::rotate(shown_.begin(), shown_.begin() + static_cast<std::ptrdiff_t>(chosen_),
                shown_.begin() + static_cast<std::ptrdiff_t>(chosen_) + 1);
    work_ = search_.work();
    LocateReport of_step = locate_report(search_, work_, meter_.title, false);
    of_step.steps = shown_;
    environment_.out << step_page(of_step, told_, Sentences(units_), environment_.page);
    menu(step, of_step);
  }

  void menu(const locate::Step& step, const LocateReport& of_step) {
    const bool is_reading = step.form == locate::Step::Form::measure;
    environment_.out << '\n';
    const bool is_look = step.form == locate::Step::Form::look;
    line("1  " + (is_reading ? say(OHMWRIGHT_TEXT("type the reading"))
                  : is_look  ? say(OHMWRIGHT_TEXT("that is it"))
                             : say(OHMWRIGHT_TEXT("replaced, and it runs"))));
    line("2  " + (is_reading ? say(OHMWRIGHT_TEXT("cannot reach it"))
                  : is_look  ? say(OHMWRIGHT_TEXT("that is in order"))
                             : say(OHMWRIGHT_TEXT("replaced, and it is as before"))));
    line("3  " + say(OHMWRIGHT_TEXT("why this")));
    line("4  " + say(OHMWRIGHT_TEXT("another step")));
    line("5  " + say(OHMWRIGHT_TEXT("go back: take the last answer back")));
    line("6  " + say(OHMWRIGHT_TEXT("say how warm something is")));
    line("0  " + say(OHMWRIGHT_TEXT("stop")));
    const std::optional<std::string> typed = answer("> ");
    if (!typed) return;
    const char choice = typed->size() == 1 ? typed->front() : '?';
    switch (choice) {
      case '1':
        return is_reading ? take_reading(step, {}) : look(step, true);
      case '2':
        chosen_ = 0;
        if (!is_reading) return look(step, false);
        search_.cannot_reach(step.measurement.test_point);
        given_.push_back({GivenAnswer::Form::out_of_reach});
        return;
      case '3':
        environment_.out << why_page(of_step, Sentences(units_), environment_.page) << '\n';
        return;
      case '4':
        chosen_ = (chosen_ + 1) % search_.steps().size();
        return;
      case '5':
        return go_back();
      case '6':
        return ask_temperature();
      case '0':
        stopped_ = true;
        return;
      default:
        if (is_reading && typed->size() > 1) return take_reading(step, *typed);
        line(say(OHMWRIGHT_TEXT("Type one of the digits.")));
    }
  }

  void go_back() {
    chosen_ = 0;
    const GivenAnswer last = std::move(given_.back());
    given_.pop_back();
    switch (last.form) {
      case GivenAnswer::Form::signs:
        search_.signs() = last.before;
        return ask_signs();
      case GivenAnswer::Form::reading:
        search_.take_back();
        return;
      case GivenAnswer::Form::out_of_reach:
        return search_.reach_again();
      case GivenAnswer::Form::look:
        return search_.signs().looked_at.pop_back();
      case GivenAnswer::Form::replacement:
        return search_.signs().replaced.pop_back();
      case GivenAnswer::Form::temperature:
        line(say(OHMWRIGHT_TEXT("Taken back: {answer}"), {{"answer", last.said}}));
        said_of_zone_ = last.said.substr(0, last.said.find('=')) + std::string(unsaid);
    }
  }

  /// Of one place, by a thermometer beside its parts: what they should read hangs on it.
  void ask_temperature() {
    line(say(OHMWRIGHT_TEXT("Where did you measure it?")));
    for (std::size_t i = 0; i < appliance_.zones.size(); ++i)
      line(std::to_string(i + 1) + "  " + appliance_.zones[i].title, "  ");
    const std::optional<std::string> place = answer("> ");
    if (!place) return;
    const std::optional<std::vector<std::size_t>> numbers = numbers_in(*place, appliance_.zones.size());
    if (!numbers || numbers->size() != 1) return line(say(OHMWRIGHT_TEXT("Type one of the digits.")));
    if (locate::is_said(search_.reasoner().prober().site(), numbers->front() - 1))
      return line(
          say(OHMWRIGHT_TEXT("That was said, and holds for all that was read. If it is another now, end here and "
                             "begin a new search with what you read from now on.")));
    line(say(OHMWRIGHT_TEXT("It holds for all that was read so far, too: was it as warm then?")));
    const std::optional<std::string> typed =
        answer(say(OHMWRIGHT_TEXT("How warm is it there (such as -18C or 0F)")) + "> ");
    if (!typed || typed->empty()) return;
    try {
      const std::string said = appliance_.zones[numbers->front() - 1].id + "=" + *typed;
      typed_zone(said, appliance_);
      said_of_zone_ = said;
      given_.push_back({GivenAnswer::Form::temperature, said, {}});
    } catch (const InputError& error) {
      line(refusal_text(error));
    }
  }

  bool agreed(const locate::Step& step) {
    if (!locate::is_live(appliance_, step.measurement)) return true;
    line(say(OHMWRIGHT_TEXT(
        "This is read live: insulated probes, one hand at a time, somebody with you, and only if you are "
        "qualified for it. 1 I am and agree  2 another step")));
    return answer("> ") == "1";
  }

  /// Least that any of what is likely shows there, as a value [in SI]; nothing where some of it shows none.
  std::optional<double> least_likely_to_show(const locate::Step& step) {
    constexpr std::size_t most = 96;
    constexpr double likely = 0.02;
    const Probe probe = appliance_.test_points[step.measurement.test_point].probe;
    std::optional<double> least;
    for (const locate::Reasoner::Weighed& weighed : search_.reasoner().likeliest(most)) {
      if (weighed.probability < likely) break;
      for (const locate::PredictedOutcome& way : search_.reasoner().predicted(weighed.instance, step.measurement)) {
        if (way.form != locate::PredictedOutcome::Form::value || way.weight < likely) continue;
        const double value = locate::scale_of(probe).linear_below * std::sinh(way.mean);
        if (!least || value < *least) least = value;
      }
    }
    return least;
  }

  /// A digit of a menu that was typed once too often is a reading, too.
  bool is_a_slipped_digit(const locate::Step& step, const locate::TakenReading& reading, const std::string& shown) {
    constexpr double far_less = 0.1;
    const auto* stated = std::get_if<StatedValue>(&reading.observed);
    if (shown.size() != 1 || stated == nullptr) return false;
    const std::optional<double> least = least_likely_to_show(step);
    if (!least || stated->value.value_in_si() > far_less * *least) return false;
    line(say(
        OHMWRIGHT_TEXT("{shown} is a tenth or less of what anything likely shows here: is it a reading? 1 yes  2 no, "
                       "a slip of the finger"),
        {{"shown", shown}}));
    return answer("> ") != "1";
  }

  void take_reading(const locate::Step& step, const std::string& at_menu) {
    if (!agreed(step)) {
      chosen_ = (chosen_ + 1) % search_.steps().size();
      return;
    }
    const Probe probe = appliance_.test_points[step.measurement.test_point].probe;
    if (source_ && at_menu.empty()) line(say(OHMWRIGHT_TEXT("An empty line reads it from the instrument.")));
    const std::optional<std::string> typed =
        at_menu.empty() ? answer(say(OHMWRIGHT_TEXT("What it shows (such as 32.1, 8k, OL)")) + "> ")
                        : std::optional(at_menu);
    if (!typed) return;
    try {
      const std::string shown = typed->empty() && source_ ? read_from_instrument(step, probe) : *typed;
      locate::TakenReading reading = typed_reading(step.measurement, shown, shown, how_);
      if (is_a_slipped_digit(step, reading, shown)) return;
      if (wants_a_range(reading, how_)) ask_range(reading);
      search_.add(std::move(reading));
      is_answered_ = true;
      given_.push_back({GivenAnswer::Form::reading});
      chosen_ = 0;
    } catch (const InputError& error) {
      line(refusal_text(error));
    }
  }

  /// OL on a low range is no open part.
  void ask_range(locate::TakenReading& reading) {
    const std::optional<std::string> typed =
        answer(say(OHMWRIGHT_TEXT("OL on which range (such as 20k; 0: nobody knows)?")) + " > ");
    if (!typed || *typed == "0" || typed->empty()) return;
    reading.range = typed_range(*typed);
    const Probe probe = appliance_.test_points[reading.measurement.test_point].probe;
    locate::refuse_impossible_range(reading, probe, how_.meter, reading.label);
  }

  /// What the reading just typed leaves unexplained, before anything else is asked.
  void reply() {
    if (!is_answered_) return;
    is_answered_ = false;
    const locate::TakenReading& last = search_.readings().back();
    if (!search_.diagnosis().is_unexplained(search_.readings().size() - 1)) return;
    environment_.out << '\n';
    if (locate::was_read_twice_alike(search_.reasoner().prober(), search_.readings(), search_.readings().size() - 1)) {
      line(say(OHMWRIGHT_TEXT("Nothing modelled explains reading {number}, {point}: {shown}, and it was read twice "
                              "alike: judge what lies between the probes by itself (ohmwright check)."),
               {{"number", std::to_string(search_.readings().size())},
                {"point", appliance_.test_points[last.measurement.test_point].title},
                {"shown", last.label}}));
      return;
    }
    line(say(OHMWRIGHT_TEXT("Nothing modelled explains reading {number}, {point}: {shown}. Measure it again: probes on "
                            "bare metal, at these terminals, what has to be off taken off."),
             {{"number", std::to_string(search_.readings().size())},
              {"point", appliance_.test_points[last.measurement.test_point].title},
              {"shown", last.label}}));
  }

  std::string read_from_instrument(const locate::Step& step, Probe probe) {
    const std::string shown = shown_by_instrument(source_, probe, locate::is_live(appliance_, step.measurement));
    line(say(OHMWRIGHT_TEXT("The instrument shows {value}."), {{"value", shown}}));
    return shown;
  }

  /// What was seen at an outside cause, or after a part was replaced.
  void look(const locate::Step& step, bool yes) {
    chosen_ = 0;
    locate::Signs& signs = search_.signs();
    if (step.form == locate::Step::Form::look) {
      signs.looked_at.push_back({step.subject, yes});
      given_.push_back({GivenAnswer::Form::look});
    } else {
      signs.replaced.push_back({step.subject, yes});
      given_.push_back({GivenAnswer::Form::replacement});
    }
  }

  locate::Search& search_;
  const Appliance& appliance_;
  const TypedReadings& how_;
  const Meter& meter_;
  UnitPreferences& units_;
  std::istream& in_;
  Environment& environment_;
  const ValueSource& source_;
  std::vector<GivenAnswer>& given_;
  locate::WorkState work_;
  std::vector<std::string> told_;            ///< remarks that were printed
  std::vector<locate::Step> shown_;          ///< the step that is offered first
  std::size_t chosen_ = 0;                   ///< which of the steps is offered
  std::optional<std::string> said_of_zone_;  ///< "coil=-18C"
  bool is_answered_ = false;                 ///< a reading was typed and not thought over yet
  bool stopped_ = false;
};

}  // namespace

std::optional<std::string> run_dialogue(locate::Search& search, const TypedReadings& how, std::istream& in,
                                        Environment& environment, const ValueSource& source,
                                        std::vector<GivenAnswer>& given) {
  return Dialogue(search, how, in, environment, source, given).run();
}

}  // namespace ohmwright::cli
