#include <algorithm>
#include <ostream>
#include <utility>

#include <ohmwright/appliance/looks.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/verdict/caution.hpp>

#include "job/actions.hpp"
#include "job/signs.hpp"
#include "job/talk.hpp"
#include "kind_files.hpp"
#include "locate/pages.hpp"
#include "refusal_text.hpp"

namespace ohmwright::cli {

void CallTalk::search() {
  JobSearch found(job_.call(), job_.arguments(), environment_, JobSearch::Reach::now);
  std::vector<locate::Step> steps(found.steps().begin(), found.steps().end());
  const locate::Standing& standing = found.search().standing();
  if (!steps.empty())
    std::rotate(steps.begin(), steps.begin() + static_cast<std::ptrdiff_t>(job_.passed_over() % steps.size()),
                steps.end());
  const locate::WorkState work = found.search().work();
  LocateReport report = locate_report(found.search(), work, found.meter().title, false);
  report.steps = steps;
  environment_.out << step_page(report, told_, Sentences(found.units()), environment_.page);
  if (standing.form == locate::Standing::Form::sealed_system) {
    screen_.line(say_(caution_named("flammable-refrigerant")->english));
    return screen_.choose(
        say_(OHMWRIGHT_TEXT("It speaks of the sealed system: licensed refrigerant work.")),
        {{say_(OHMWRIGHT_TEXT("stop the job for licensed work")), [this] { job_.act(close_job, {"stopped"}); }},
         {say_(OHMWRIGHT_TEXT("take the last answer back")), [this] { job_.take_back(); }}});
  }
  offer(found, steps, report);
}

void CallTalk::offer(JobSearch& found, const std::vector<locate::Step>& steps, const LocateReport& report) {
  const Appliance& appliance = found.appliance();
  const locate::Standing& standing = found.search().standing();
  std::vector<Choice> choices;
  if (!steps.empty()) add_step(found, steps.front(), choices);
  if (!steps.empty())
    choices.push_back({say_(OHMWRIGHT_TEXT("why this")), [this, &found, &report] {
                         environment_.out << why_page(report, Sentences(found.units()), environment_.page);
                       }});
  if (steps.size() > 1) choices.push_back({say_(OHMWRIGHT_TEXT("another step")), [this] { job_.pass_over(); }});
  choices.push_back({say_(OHMWRIGHT_TEXT("take the last answer back")), [this] { job_.take_back(); }});
  // In the place of "replace a part", so that no digit means another thing once a part is named.
  for (const std::size_t part : standing.is_named() ? standing.parts : std::vector<std::size_t>{})
    choices.push_back({say_(OHMWRIGHT_TEXT("replace: {part}"), {{"part", appliance.parts[part].title}}),
                       [this, &appliance, part] { replace(appliance, part); }});
  if (!standing.is_named())
    choices.push_back({say_(OHMWRIGHT_TEXT("replace a part")), [this, &appliance] { ask_part(appliance); }});
  choices.push_back({say_(OHMWRIGHT_TEXT("close the job, or wait")), [this] { ask_close(); }});
  if (searches_on_)
    choices.push_back({say_(OHMWRIGHT_TEXT("back to the proof of the repair")), [this] { searches_on_ = false; }});
  choices.push_back(
      {say_(OHMWRIGHT_TEXT("a part or joint was mended in its place")), [this, &appliance] { ask_mended(appliance); }});
  Taken taken;
  if (!steps.empty() && steps.front().form == locate::Step::Form::measure &&
      standing.form != locate::Standing::Form::settled)
    taken = [&](const std::string& value) { take_reading(appliance, steps.front(), value); };
  screen_.choose(say_(OHMWRIGHT_TEXT("What now?")), choices, taken);
}

void CallTalk::add_step(JobSearch& found, const locate::Step& step, std::vector<Choice>& choices) {
  const Appliance& appliance = found.appliance();
  if (step.form == locate::Step::Form::measure) {
    // Once a part is found the page shows no step any more.
    const bool is_shown = found.search().standing().form != locate::Standing::Form::settled;
    const std::string point = appliance.test_points[step.measurement.test_point].title;
    choices.push_back({is_shown ? say_(OHMWRIGHT_TEXT("type the reading"))
                                : say_(OHMWRIGHT_TEXT("type the reading: {point}"), {{"point", point}}),
                       [this, &appliance, step] { take_reading(appliance, step); }});
    choices.push_back({say_(OHMWRIGHT_TEXT("cannot reach it")), [this, &appliance, step] {
                         job_.sign("--cannot-reach", appliance.test_points[step.measurement.test_point].id);
                       }});
  } else if (step.form == locate::Step::Form::look) {
    const std::string cause = look_words(appliance, step.subject).id;
    choices.push_back({say_(OHMWRIGHT_TEXT("that is it")), [this, cause] { job_.sign("--looked", cause + "=found"); }});
    choices.push_back(
        {say_(OHMWRIGHT_TEXT("that is in order")), [this, cause] { job_.sign("--looked", cause + "=fine"); }});
  } else {
    choices.push_back(
        {say_(OHMWRIGHT_TEXT("replace it")), [this, &appliance, step] { replace(appliance, step.subject); }});
  }
}

void CallTalk::take_reading(const Appliance& appliance, const locate::Step& step, const std::string& value) {
  std::string place = appliance.test_points[step.measurement.test_point].id;
  if (step.measurement.set_up) place += "@" + appliance.set_ups[*step.measurement.set_up].id;
  TalkedJob::Options options;
  if (locate::is_live(appliance, step.measurement)) {
    bool yes = false;
    screen_.choose(
        say_(OHMWRIGHT_TEXT("This is read live: insulated probes, one hand at a time, somebody with you, and only if "
                            "you are qualified for it.")),
        {{say_(OHMWRIGHT_TEXT("I am, and agree; record it")), [&yes] { yes = true; }},
         {say_(OHMWRIGHT_TEXT("another step")), [this] { job_.pass_over(); }}});
    if (!yes) return;
    options.emplace_back("--live-agreed", "");
  }
  reading_.read_at(place, value, options);
}

void CallTalk::ask_part(const Appliance& appliance) {
  std::vector<Choice> choices;
  for (std::size_t part = 0; part < appliance.parts.size(); ++part)
    choices.push_back({appliance.parts[part].title, [this, &appliance, part] {
                         if (goes_in_all_the_same(appliance, part)) replace(appliance, part);
                       }});
  choices.push_back({say_(OHMWRIGHT_TEXT("go back")), [] {}});
  screen_.choose(say_(OHMWRIGHT_TEXT("Which part?")), choices);
}

bool CallTalk::goes_in_all_the_same(const Appliance& appliance, std::size_t part) {
  const PlacedPart& placed = appliance.parts[part];
  const bool was_read_bad =
      std::any_of(job_.call().readings.begin(), job_.call().readings.end(), [&](const job::MeasuredValue& reading) {
        return reading.part == placed.id && reading.outcome == Outcome::out_of_limits;
      });
  if (was_read_bad) return true;
  JobSearch now(job_.call(), job_.arguments(), environment_, JobSearch::Reach::now);
  const locate::Standing& standing = now.search().standing();
  if (standing.is_named() && std::find(standing.parts.begin(), standing.parts.end(), part) != standing.parts.end())
    return true;
  bool yes = false;
  screen_.choose(say_(OHMWRIGHT_TEXT("{part}: nothing that was read condemns it. Is it replaced all the same?"),
                      {{"part", placed.title}}),
                 {{say_(OHMWRIGHT_TEXT("yes")), [&yes] { yes = true; }}, {say_(OHMWRIGHT_TEXT("go back")), [] {}}});
  return yes;
}

void CallTalk::ask_mended(const Appliance& appliance) {
  std::vector<Choice> choices;
  for (const PlacedPart& placed : appliance.parts)
    choices.push_back({placed.title, [this, id = placed.id] {
                         const auto what = screen_.typed_words(
                             say_(OHMWRIGHT_TEXT("What was done (such as: crimped anew; an empty line goes "
                                                 "back)")));
                         if (!what) return;
                         if (job_.act(replace_in_talk, {id}, {{"--mended", *what}})) searches_on_ = false;
                       }});
  choices.push_back({say_(OHMWRIGHT_TEXT("go back")), [] {}});
  screen_.choose(say_(OHMWRIGHT_TEXT("Which part or joint was mended?")), choices);
}

std::string CallTalk::ask_ratings(const PlacedPart& placed) {
  std::string ratings;
  std::vector<Choice> choices;
  const auto take = [&ratings](const std::string& name) { return [&ratings, name] { ratings = name; }; };
  if (!placed.ratings.empty())
    choices.push_back(
        {say_(OHMWRIGHT_TEXT("the same ratings as the old one: {ratings}"), {{"ratings", placed.ratings}}),
         take(placed.ratings)});
  for (const std::string& name : names_in_folder(placed.kind->ratings_folder()))
    if (name != placed.ratings) choices.push_back({name, take(name)});
  choices.push_back({say_(OHMWRIGHT_TEXT("others: type the name of their file")), [&] {
                       const auto name = screen_.typed_words(say_(OHMWRIGHT_TEXT("Ratings of the new part")));
                       if (name) ratings = *name;
                     }});
  choices.push_back({say_(OHMWRIGHT_TEXT("nobody knows them")), take("unknown")});
  choices.push_back(
      {say_(OHMWRIGHT_TEXT("it is not here: wait for the part")), [this] { job_.act(wait_in_job, {"part"}); }});
  choices.push_back({say_(OHMWRIGHT_TEXT("go back")), [] {}});
  screen_.choose(say_(OHMWRIGHT_TEXT("{part}: photograph wires, clips and foil first. Which ratings has the new one?"),
                      {{"part", placed.title}}),
                 choices);
  if (ratings.empty() || ratings == "unknown") return ratings;
  try {
    (void)rated_part(*placed.kind, ratings);
    return ratings;
  } catch (const Error& error) {  // a slip in a name is no part that does not fit
    if (error.category() != ErrorCategory::input) throw;
    screen_.line(refusal_text(error));
  }
  return ask_ratings(placed);
}

void CallTalk::replace(const Appliance& appliance, std::size_t part) {
  const PlacedPart& placed = appliance.parts[part];
  const std::string ratings = ask_ratings(placed);
  if (ratings.empty()) return;
  searches_on_ = false;
  if (job_.act(replace_in_talk, {placed.id}, {{"--new", ratings}})) return;
  screen_.choose(
      say_(OHMWRIGHT_TEXT("It does not go in like this.")),
      {{say_(OHMWRIGHT_TEXT("one of other ratings")), [this, &appliance, part] { replace(appliance, part); }},
       {say_(OHMWRIGHT_TEXT("none: back to the search")), [] {}},
       {say_(OHMWRIGHT_TEXT("it goes in all the same: type why")), [&] {
          if (const auto why = screen_.typed_words(say_(OHMWRIGHT_TEXT("Why"))))
            job_.act(replace_in_talk, {placed.id}, {{"--new", ratings}, {"--because", *why}});
        }}});
}

}  // namespace ohmwright::cli
