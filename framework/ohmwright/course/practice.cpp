#include <algorithm>
#include <cmath>
#include <sstream>

#include <ohmwright/course/meter_display.hpp>
#include <ohmwright/course/practice.hpp>
#include <ohmwright/locate/scale.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

namespace {

// Minutes of what is not the appliance's own (common practice, no source): with `locate::WorkTimes`.
constexpr double unplug_minutes = 1.0;
constexpr double prove_dead_minutes = 2.0;
constexpr double plug_in_minutes = 2.0;
constexpr double look_minutes = 1.0;

/// By its id, whatever the letter case, and blanks for hyphens.
template <class Row>
std::size_t index_named(const std::vector<Row>& rows, const std::string& name, const std::string& what) {
  std::vector<std::string> known;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (spoken_name(rows[i].id) == spoken_name(name)) return i;
    known.push_back(rows[i].id);
  }
  throw InputError("there is no " + what + " " + ohmwright::quoted(name) + did_you_mean(name, known) +
                   "; there are: " + listed(known));
}

/// Words, and who works: done at any time, and nothing at the bench is another for it.
bool changes_nothing(const Entry& wish) {
  return wish.action == "note" || wish.action == "start" || wish.action == "join";
}

/// The range as the meter calls it, for what a student wrote: "6k", "600", "6 kohm".
std::string named_range(const Meter& meter, Probe probe, const std::string& typed) {
  const Dimension dimension = locate::dimension_of(probe);
  const std::vector<std::string> names = range_names(meter, dimension);
  if (typed.empty() || typed == "auto") {
    if (meter.sets_range_itself) return "auto";
    throw InputError("this meter does not set its range itself: add range=RANGE; it has: " + listed(names));
  }
  StatedValueOptions options;
  options.default_unit = Unit::named(si_unit_of(dimension), dimension);
  const double wanted = parse_stated_value(typed, dimension, options).value.value_in_si();
  if (const MeterFunction* function = function_for(meter, dimension))
    for (const MeterRange& range : function->ranges)
      if (std::abs(range.full_scale.value_in_si() - wanted) <= 1e-9 * wanted) return range_name(range, dimension);
  throw InputError("the meter has no range " + ohmwright::quoted(typed) + "; it has: " + listed(names));
}

}  // namespace

std::string_view hazard_text(std::string_view hazard) {
  if (hazard == ohms_on_live)
    return OHMWRIGHT_TEXT(
        "STOP. You put an ohmmeter on a live circuit. In life the meter may burst, an arc burns hands and eyes, and "
        "the "
        "current through you can kill. The exercise ends here. Unplug, prove it dead, then read ohms.");
  if (hazard == not_proved_dead)
    return OHMWRIGHT_TEXT(
        "Nobody proved it dead. The wrong plug may be out, a capacitor may be charged: test with a meter you have "
        "tested.");
  if (hazard == opened_while_live)
    return OHMWRIGHT_TEXT(
        "It is plugged in. Covers and leads come off with the plug out and in sight: behind them terminals are live.");
  return hazard;
}

std::string_view before_plugging_in() {
  return OHMWRIGHT_TEXT(
      "Before you plug in: every lead that was lifted is back on, tools and hands are away, and what stays open is "
      "kept "
      "from everybody's reach.");
}

Practice::Practice(const Exercise& exercise)
    : exercise_(&exercise), work_(locate::work_at_arrival(exercise.places)), proved_dead_(exercise.on_the_table) {
  work_.power = exercise.on_the_table ? locate::WorkState::Power::dead : locate::WorkState::Power::live;
}

double Practice::least_confidence(const Exercise& exercise) {
  return 1.0 / static_cast<double>(exercise.parts.size() + 1);
}

Entry Practice::perform(Entry wish) {
  const Sentences say{UnitPreferences{}};
  if (stopped_ && wish.action != "answer" && !changes_nothing(wish))
    throw InputError(say(
        OHMWRIGHT_TEXT("the exercise was stopped for an injury; what is left is the answer: ohmwright course answer")));
  if (answered_)
    throw InputError(say(OHMWRIGHT_TEXT("the answer was given; begin another exercise, or another record")));
  refuse_what_no_record_holds(wish);
  wish.shown.clear();
  wish.hazards.clear();
  wish.minutes = 0.0;
  if (wish.action == "measure") {
    measure(wish);
  } else if (wish.action == "unplug") {
    wish.minutes = is_plugged_in() ? unplug_minutes : 0.0;
    work_.power = locate::WorkState::Power::dead;
    if (work_.set_up && exercise_->places.set_ups[*work_.set_up].live) work_.set_up.reset();
  } else if (wish.action == "prove-dead") {
    wish.minutes = prove_dead_minutes;
    proved_dead_ = !is_plugged_in();
    wish.shown = proved_dead_ ? "dead" : "LIVE";
  } else if (wish.action == "plug-in") {
    if (exercise_->on_the_table)
      throw InputError(
          say(OHMWRIGHT_TEXT("a part on the table has no plug: measure it as it lies there, or in a set-up")));
    wish.minutes = is_plugged_in() ? 0.0 : plug_in_minutes;
    work_.power = locate::WorkState::Power::live;
    proved_dead_ = false;
  } else if (wish.action == "look") {
    wish.minutes = look_minutes;
    const Look& look = exercise_->looks[index_named(exercise_->looks, wish.subject, "look")];
    wish.subject = look.id;
    wish.shown = look.seen ? "yes" : "no";
  } else if (wish.action == "answer") {
    answer(wish);
    answered_ = true;
  } else if (!changes_nothing(wish)) {
    throw InputError("the bench knows no " + ohmwright::quoted(wish.action));
  }
  minutes_ += wish.minutes;
  ++entries_;
  return wish;
}

void Practice::answer(const Entry& wish) const {
  if (wish.named.size() > most_faults_named)
    throw InputError("an answer names at most two faults, for no exercise hides more; name those you are sure of");
  for (const std::string& name : wish.named) {
    const std::size_t dot = name.find('.');
    const AnswerPart& part = exercise_->parts[index_named(exercise_->parts, name.substr(0, dot), "part")];
    if (dot == std::string::npos) continue;
    std::vector<std::string> known;
    for (const auto& fault : part.faults) known.push_back(fault.first);
    const std::string fault = name.substr(dot + 1);
    if (std::find(known.begin(), known.end(), fault) == known.end())
      throw InputError(ohmwright::quoted(part.id) + " has no fault " + ohmwright::quoted(fault) +
                       did_you_mean(fault, known) + "; it has: " + listed(known));
  }
  for (const std::size_t number : wish.because)
    if (number == 0 || number >= entries_)
      throw InputError("the record has no entry " + std::to_string(number) + "; its entries are 1 to " +
                       std::to_string(entries_ - 1));
  if (!(wish.confidence >= 0.0 && wish.confidence <= 1.0)) throw InputError("a confidence is from 0 % to 100 %");
  const double least = least_confidence(*exercise_);
  constexpr double rounding = 0.005;  // 11 % is taken for a ninth
  if (wish.confidence < least - rounding)
    throw InputError("with " + std::to_string(exercise_->parts.size() + 1) +
                     " answers to choose from, the likeliest is at least " +
                     std::to_string(static_cast<int>(std::ceil(100.0 * (least - rounding)))) +
                     " % likely: give the answer you hold for likelier, or state at least that");
}

double Practice::work_minutes(const locate::Measurement& measurement) const {
  const Appliance& places = exercise_->places;
  double minutes = places.test_points[measurement.test_point].minutes;
  for (const std::size_t cover : locate::covers_to_take_off(places, work_, measurement))
    minutes += places.covers[cover].minutes;
  if (work_.set_up == measurement.set_up) return minutes;
  if (measurement.set_up) minutes += places.set_ups[*measurement.set_up].minutes;
  // What another set-up left behind is ended first, which is taken to cost what bringing it about did.
  if (work_.set_up) minutes += places.set_ups[*work_.set_up].minutes;
  return minutes;
}

std::optional<double> Practice::value_at(const ReadingPlace& place) {
  const auto found = std::find_if(exercise_->readings.begin(), exercise_->readings.end(),
                                  [&](const auto& row) { return !(row.first < place) && !(place < row.first); });
  if (found == exercise_->readings.end())
    throw InputError(Sentences{UnitPreferences{}}(
        OHMWRIGHT_TEXT("this combination of test point, leads and set-up is not to be measured here")));
  const std::size_t time = readings_at_[place]++;
  return found->second[time % found->second.size()];
}

void Practice::measure(Entry& wish) {
  const Sentences say{UnitPreferences{}};
  const Appliance& places = exercise_->places;
  locate::Measurement measurement{index_named(places.test_points, wish.subject, "test point"), {}};
  if (!wish.set_up.empty()) measurement.set_up = index_named(places.set_ups, wish.set_up, "set-up");
  const TestPoint& point = places.test_points[measurement.test_point];
  wish.subject = point.id;
  if (measurement.set_up) wish.set_up = places.set_ups[*measurement.set_up].id;
  const bool ohms = point.probe == Probe::ohms;
  const bool live_set_up = measurement.set_up && places.set_ups[*measurement.set_up].live;
  const bool chooses = exercise_->lifts_leads[measurement.test_point];
  if (chooses && wish.leads != "off" && wish.leads != "in")
    throw InputError(say(OHMWRIGHT_TEXT("{point}: say lead-off, or in-circuit to leave the leads as they are"),
                         {{"point", ohmwright::quoted(point.id)}}));
  if (!chooses && wish.leads == "off" && !exercise_->on_the_table)  // there nothing is connected: its leads are off
    throw InputError(say(OHMWRIGHT_TEXT("at {point} no lead comes off; leave lead-off away"),
                         {{"point", ohmwright::quoted(point.id)}}));
  wish.range = named_range(exercise_->meter, point.probe, wish.range);
  if (!chooses) wish.leads.clear();
  const bool live = is_plugged_in();
  if (live_set_up && !live && !ohms)
    throw InputError(say(OHMWRIGHT_TEXT("the set-up {set_up} needs the supply; plug-in comes before it"),
                         {{"set_up", ohmwright::quoted(wish.set_up)}}));
  if (!ohms && live && !wish.live_agreed)
    throw InputError(say(OHMWRIGHT_TEXT(
        "this is a live measurement, for those qualified for it, with insulated probes, one hand at a time; if you "
        "agree to that, add live-agreed")));
  if (live && (wish.leads == "off" || !locate::covers_to_take_off(places, work_, measurement).empty()))
    wish.hazards.emplace_back(opened_while_live);
  if (!live && !proved_dead_) wish.hazards.emplace_back(not_proved_dead);
  wish.minutes = work_minutes(measurement);
  if (ohms && (live || live_set_up)) {
    wish.hazards = {std::string(ohms_on_live)};
    stopped_ = true;
    return;
  }
  // Volts and amperes with the plug out are nothing, whatever is wrong.
  const std::optional<double> value =
      !ohms && !live ? std::optional(0.0) : value_at({wish.set_up, point.id, wish.leads == "in"});
  wish.shown = shown_on(exercise_->meter, locate::dimension_of(point.probe), wish.range, value);
  const locate::WorkState::Power power = work_.power;
  work_ = locate::after(places, std::move(work_), measurement);
  work_.power = power;
}

Entry wish_in(const std::string& line) {
  std::istringstream words(line);
  Entry wish;
  words >> wish.action;
  wish.action = lower_case(wish.action);
  for (const auto& [first, second] : {std::pair{"prove", "dead"}, {"plug", "in"}})  // in two words
    if (std::string next; wish.action == first && words >> next && lower_case(next) == second)
      wish.action += std::string("-") + second;
  const std::vector<std::string> known{"measure", "look", "unplug", "prove-dead", "plug-in", "note"};
  if (wish.action == "answer")
    throw InputError(
        "the answer is not given here: quit, then ohmwright course answer EXERCISE --named PART.FAULT --because "
        "NUMBERS --confidence PERCENT");
  if (std::find(known.begin(), known.end(), wish.action) == known.end())
    throw InputError(
        Sentences{UnitPreferences{}}(OHMWRIGHT_TEXT("the bench knows no {word}; it knows: {words}"),
                                     {{"word", ohmwright::quoted(wish.action) + did_you_mean(wish.action, known)},
                                      {"words", listed(known) + "; help, quit"}}));
  if (wish.action == "note") {
    std::getline(words >> std::ws, wish.subject);
    return wish;
  }
  words >> wish.subject;
  if ((wish.action == "measure" || wish.action == "look") && wish.subject.empty())
    throw InputError(wish.action + " what? name a " + (wish.action == "look" ? "look" : "test point"));
  if (const std::size_t at = wish.subject.find('@'); wish.action == "measure" && at != std::string::npos) {
    wish.set_up = wish.subject.substr(at + 1);
    wish.subject.resize(at);
  }
  for (std::string word; words >> word;) {
    if (word == "lead-off")
      wish.leads = "off";
    else if (word == "in-circuit")
      wish.leads = "in";
    else if (word == "live-agreed")
      wish.live_agreed = true;
    else if (word.rfind("range=", 0) == 0)
      wish.range = word.substr(std::string_view("range=").size());
    else if (!wish.range.empty() && wish.action == "measure")
      wish.range += " " + word;  // "range=6 kohm" in two words
    else
      throw InputError("expected lead-off, in-circuit, range=RANGE or live-agreed, got " + ohmwright::quoted(word));
  }
  std::erase_if(wish.range, [](char letter) { return letter == '"' || letter == '\''; });  // range="600 ohm"
  return wish;
}

}  // namespace ohmwright::course
