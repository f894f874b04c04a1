#include <algorithm>

#include <ohmwright/job/closing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/job_report.hpp>

#include "job_actions.hpp"
#include "job_talk.hpp"

namespace ohmwright::cli {

void CallTalk::prove() {
  if (!job_.call.has_stage("refitted"))
    return choose(
        say_(OHMWRIGHT_TEXT("Foil tape and clips back, splices sealed and clear of heater and fan, earth leads on?")),
        {{say_(OHMWRIGHT_TEXT("done")), [this] { note_stage("refitted"); }}});
  if (const std::string place = place_of_new_part(); !place.empty()) return ask_new_part(place);
  const std::vector<job::Obstacle> against = job::obstacles(job_.call);
  if (!against.empty()) return ask_obstacle(against.front());
  if (!job_.call.has_stage("panel-on"))
    return choose(say_(OHMWRIGHT_TEXT("Everything dry, panel and covers on, drain clear?")),
                  {{say_(OHMWRIGHT_TEXT("done")), [this] { note_stage("panel-on"); }}});
  const auto checked = [this](std::string_view what) {
    return std::any_of(job_.call.checks.begin(), job_.call.checks.end(),
                       [what](const job::Check& check) { return check.what == what; });
  };
  if (!checked("forced-defrost") && !job_.call.has_stage("no-forced-defrost")) return ask_forced_defrost();
  if (!checked("log") && !job_.call.has_stage("no-log")) return ask_log_or_not();
  ask_close();
}

std::string CallTalk::place_of_new_part() const {
  const job::ReplacedPart& replaced = job_.call.replaced.back();
  std::string place;
  for (const job::MeasuredValue& reading : job_.call.readings) {
    if (reading.part != replaced.part || reading.word.empty()) continue;
    if (reading.order > replaced.order) return {};
    place = reading.word.substr(0, reading.word.find('='));
  }
  return job_.call.has_stage("new-part-unread") ? std::string() : place;
}

void CallTalk::ask_new_part(const std::string& place) {
  choose(say_(OHMWRIGHT_TEXT("Read the new part as the old one was read: {place}"), {{"place", place}}),
         {{say_(OHMWRIGHT_TEXT("type the reading")),
           [this, place] {
             if (const auto value = typed(say_(OHMWRIGHT_TEXT("What it shows (such as 32.1, 8k, OL; 0 stops)"))))
               act(read_for_job, {place + "=" + *value});
           }},
          {say_(OHMWRIGHT_TEXT("it cannot be read")), [this] { note_stage("new-part-unread"); }}});
}

void CallTalk::ask_obstacle(const job::Obstacle& obstacle) {
  using Form = job::Obstacle::Form;
  const bool bond = obstacle.form == Form::earth_bond_unread || obstacle.form == Form::earth_bond_not_within;
  const std::string part = job_.call.replaced.back().part;
  if (bond)
    return choose(obstacle_text(obstacle, say_),
                  {{say_(OHMWRIGHT_TEXT("type the earth bond with its cord")),
                    [this] {
                      if (const auto value = typed(say_(OHMWRIGHT_TEXT("Earth bond (such as 0.12 ohm)"))))
                        act(verify_job, {}, {{"--earth-bond", *value}});
                    }},
                   {say_(OHMWRIGHT_TEXT("it has no protective earth (class II)")),
                    [this] {
                      act(verify_job, {}, {{"--earth-bond", "none"}});
                    }},
                   {say_(OHMWRIGHT_TEXT("close the job, or wait")), [this] { ask_close(); }}});
  choose(obstacle_text(obstacle, say_),
         {{say_(OHMWRIGHT_TEXT("type the insulation, read at 500 V")),
           [this, part] {
             if (const auto value = typed(say_(OHMWRIGHT_TEXT("Insulation (such as 200 Mohm, or >200M)"))))
               act(read_for_job, {part, "insulation=" + *value, "--test", "500V", "--proved-dead"});
           }},
          {say_(OHMWRIGHT_TEXT("close the job, or wait")), [this] { ask_close(); }}});
}

void CallTalk::ask_forced_defrost() {
  bool yes = false;
  choose(say_(OHMWRIGHT_TEXT(
             "Now a forced defrost, live: the limit proved and not bridged, the drain clear, a time limit, "
             "and you stay beside it; only if you are qualified.")),
         {{say_(OHMWRIGHT_TEXT("I am, and agree; record it")), [&yes] { yes = true; }},
          {say_(OHMWRIGHT_TEXT("no forced defrost")), [this] { note_stage("no-forced-defrost"); }}});
  if (!yes) return;
  const auto result = [this](const std::string& how) {
    return [this, how] { act(verify_job, {}, {{"--forced-defrost", how}, {"--live-agreed", ""}}); };
  };
  choose(say_(OHMWRIGHT_TEXT("How did it go?")),
         {{say_(OHMWRIGHT_TEXT("it heated, and ended by itself")), result("ended")},
          {say_(OHMWRIGHT_TEXT("it did not heat")), result("no-heat")},
          {say_(OHMWRIGHT_TEXT("it heated, and did not end by itself")), result("did-not-end")}});
}

void CallTalk::ask_log() {
  const std::optional<std::string> after = typed(say_(OHMWRIGHT_TEXT("File of the log from after the repair")));
  if (!after || after->empty()) return;
  act(verify_job, {}, {{"--log", *after}});
}

void CallTalk::ask_log_or_not() {
  choose(say_(OHMWRIGHT_TEXT("A log over some days proves that it defrosts by itself.")),
         {{say_(OHMWRIGHT_TEXT("the log is there: type its file")), [this] { ask_log(); }},
          {say_(OHMWRIGHT_TEXT("wait for the log")),
           [this] {
             act(wait_in_job, {"log"});
             stopped_ = true;
           }},
          {say_(OHMWRIGHT_TEXT("no log")), [this] { note_stage("no-log"); }}});
}

}  // namespace ohmwright::cli
