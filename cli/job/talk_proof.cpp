#include <algorithm>
#include <array>
#include <variant>

#include <ohmwright/job/proof.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/observed.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/report/page_cautions.hpp>
#include <ohmwright/verdict/caution.hpp>

#include "job/actions.hpp"
#include "job/appliance.hpp"
#include "job/low_voltage.hpp"
#include "job/safety.hpp"
#include "job/talk.hpp"

namespace ohmwright::cli {

namespace {

const job::ProofStep* step_of(const std::vector<job::ProofStep>& open, job::ProofStep::Form form) {
  const auto found =
      std::find_if(open.begin(), open.end(), [form](const job::ProofStep& step) { return step.form == form; });
  return found == open.end() ? nullptr : &*found;
}

/// Whether something was read, checked or refitted since the last work: then the old part is out.
bool was_proved_since(const job::ServiceCall& call, const job::Told& work) {
  const auto is_later = [&work](const job::Told& told) { return work.happened_before(told); };
  return std::any_of(call.readings.begin(), call.readings.end(), is_later) ||
         std::any_of(call.checks.begin(), call.checks.end(), is_later) ||
         call.has_stage_since(job::Stage::refitted, work);
}

bool is_of_earth_bond(job::ProofStep::Form form) {
  using Form = job::ProofStep::Form;
  return form == Form::earth_bond_not_within || form == Form::earth_bond_undecided || form == Form::earth_bond_unread;
}

/// Whether an insulation tester may prove it: what 500 V destroy has to be off before they go in.
bool offers_a_tester(job::ProofStep::Form form) {
  using Form = job::ProofStep::Form;
  constexpr std::array forms{Form::insulation_not_within, Form::leak_unexplained,   Form::insulation_below_class_two,
                             Form::insulation_undecided,  Form::insulation_unread,  Form::circuit_insulation_unread,
                             Form::no_insulation_read,    Form::insulation_unproved};
  return std::find(forms.begin(), forms.end(), form) != forms.end();
}

/// Whether an insulation is so low that what lies beside the part may have been read.
bool hangs_on_its_leads(const std::string& value) {
  constexpr double low_ohms = 10e6;
  ObservedOptions options;
  options.default_unit = Unit::named("ohm", Dimension::resistance);
  try {
    const Observed observed = parse_observed(value, Dimension::resistance, options);
    const auto* stated = std::get_if<StatedValue>(&observed);
    return stated != nullptr && stated->value.value_in_si() < low_ohms;
  } catch (const Error& error) {
    if (error.category() != ErrorCategory::input) throw;
    return false;  // who takes the reading says what is wrong with it
  }
}

}  // namespace

/// Walks what `open_proof` says is open, with the steps of the work between.
void CallTalk::prove() {
  using Form = job::ProofStep::Form;
  const job::ReplacedPart last = *job_.call().last_work();
  const auto done = [&](job::Stage stage) { return job_.call().has_stage_since(stage, last); };
  const std::vector<job::ProofStep> open = job::open_proof(job_.call());
  const auto danger =
      std::find_if(open.begin(), open.end(), [](const job::ProofStep& step) { return step.is_danger(); });
  if (danger != open.end()) return ask_bar(*danger, ways_on_from(*danger));
  if (job_.call().cools() && !last.was_mended() && !done(job::Stage::ice_cleared) &&
      !was_proved_since(job_.call(), last))
    return screen_.choose(
        say_(OHMWRIGHT_TEXT("Drawers, panel and covers before it off, the ice melted with warm water or a "
                            "bagged warm cloth (no heat gun, flame or knife), the water caught?")),
        {{say_(OHMWRIGHT_TEXT("done")), [this] { job_.note_stage(job::Stage::ice_cleared); }}, take_back_choice()});
  if (const job::ProofStep* step = step_of(open, Form::new_part_unread)) return ask_new_part(*step);
  if (const job::ProofStep* step = step_of(open, Form::mended_unread)) return ask_mended_again(*step);
  // Nothing is sealed before what is read with its leads off; the earth bond is read with all earth leads on.
  const auto with_leads_off = std::find_if(open.begin(), open.end(), [](const job::ProofStep& step) {
    return step.bars_energising() && !is_of_earth_bond(step.form);
  });
  if (with_leads_off != open.end()) return ask_bar(*with_leads_off, ways_on_from(*with_leads_off));
  if (!done(job::Stage::refitted))
    return screen_.choose(
        job_.call().cools()
            ? say_(OHMWRIGHT_TEXT(
                  "Foil tape and clips back, splices sealed and clear of heater and fan, earth leads on?"))
            : say_(OHMWRIGHT_TEXT("Clips back, splices sealed and clear of what gets hot or turns, earth leads on?")),
        {{say_(OHMWRIGHT_TEXT("done")), [this] { job_.note_stage(job::Stage::refitted); }}, take_back_choice()});
  if (!open.empty() && open.front().bars_energising()) return ask_bar(open.front(), ways_on_from(open.front()));
  if (!done(job::Stage::panel_on))
    return screen_.choose(
        job_.call().cools() ? say_(OHMWRIGHT_TEXT("Everything dry, panel and covers on, drain clear?"))
                            : say_(OHMWRIGHT_TEXT("Everything dry, panel and covers on?")),
        {{say_(OHMWRIGHT_TEXT("done")), [this] { job_.note_stage(job::Stage::panel_on); }}, take_back_choice()});
  for (const Form failed : {Form::heat_did_not_come, Form::heat_end_unproved, Form::heat_unproved})
    if (const job::ProofStep* step = step_of(open, failed)) return ask_bar(*step, ways_on_from(*step));
  if (step_of(open, Form::forced_defrost) != nullptr && !done(job::Stage::no_forced_defrost))
    return ask_forced_defrost();
  for (const Form failed : {Form::log_shows_fault, Form::log_unproved})
    if (const job::ProofStep* step = step_of(open, failed)) return ask_bar(*step, ways_on_from(*step));
  if (step_of(open, Form::log) != nullptr && !done(job::Stage::no_log)) return ask_log_or_not();
  ask_close();
}

void CallTalk::ask_new_part(const job::ProofStep& step) {
  screen_.choose(say_(OHMWRIGHT_TEXT("Read the new part as the old one was read: {place}"), {{"place", step.place}}),
                 {{say_(OHMWRIGHT_TEXT("type the reading")), [this, place = step.place] { reading_.read_at(place); }},
                  {say_(OHMWRIGHT_TEXT("it cannot be read")), [this] { job_.note_stage(job::Stage::new_part_unread); }},
                  take_back_choice()},
                 [this, place = step.place](const std::string& value) { reading_.read_at(place, value); });
}

void CallTalk::ask_mended_again(const job::ProofStep& step) {
  screen_.choose(proof_text(step, say_),
                 {{say_(OHMWRIGHT_TEXT("type the reading")), [this, place = step.place] { reading_.read_at(place); }},
                  replace_choice(),
                  {say_(OHMWRIGHT_TEXT("close the job, or wait")), [this] { ask_close(); }},
                  take_back_choice()},
                 [this, place = step.place](const std::string& value) { reading_.read_at(place, value); });
}

CallTalk::Choice CallTalk::take_back_choice() {
  return {say_(OHMWRIGHT_TEXT("take the last answer back")), [this] { job_.take_back(); }};
}

std::vector<CallTalk::Choice> CallTalk::ways_on_from(const job::ProofStep& step) {
  std::vector<Choice> ways;
  if (step.is_failed_check() || step.leaves_part_unproved())
    ways.push_back({say_(OHMWRIGHT_TEXT("go on searching, not plugged in")), [this] { searches_on_ = true; }});
  if (step.form == job::ProofStep::Form::insulation_not_within || step.form == job::ProofStep::Form::leak_to_earth)
    ways.push_back(replace_choice());
  ways.push_back(take_back_choice());
  return ways;
}

CallTalk::Choice CallTalk::replace_choice() {
  return {say_(OHMWRIGHT_TEXT("replace a part")), [this] { ask_part(appliance_of(job_.call(), environment_)); }};
}

CallTalk::Choice CallTalk::mistyped_choice(const std::string& entry) {
  return {say_(OHMWRIGHT_TEXT("that was mistyped: take it back")), [this, entry] { job_.act(correct_job, {entry}); }};
}

void CallTalk::ask_bar(const job::ProofStep& bar, std::vector<Choice> more) {
  std::vector<Choice> choices = ways_to_prove(bar);
  for (Choice& choice : more) choices.push_back(std::move(choice));
  choices.push_back({say_(OHMWRIGHT_TEXT("close the job, or wait")), [this] { ask_close(); }});
  Taken taken;
  if (!bar.place.empty() && bar.leaves_part_unproved())
    taken = [this, place = bar.place](const std::string& value) { reading_.read_at(place, value); };
  if (offers_a_tester(bar.form)) screen_.line(caution_line({say_(caution_named("insulation-test")->brief)}, say_));
  screen_.choose(proof_text(bar, say_), choices, taken);
}

std::vector<CallTalk::Choice> CallTalk::ways_to_prove(const job::ProofStep& bar) {
  using Form = job::ProofStep::Form;
  switch (bar.form) {
    case Form::leak_to_earth:
      return {{say_(OHMWRIGHT_TEXT("it is mended: type what is read there now")),
               [this, place = bar.part] {
                 const auto value =
                     screen_.typed_value(say_(OHMWRIGHT_TEXT("What it shows there (such as 20M, \"OL on 20M\")")));
                 if (value) job_.act(read_in_talk, {place + "=" + *value});
               }},
              {say_(OHMWRIGHT_TEXT("that was mistyped: take that reading back")),
               [this, place = bar.part] { job_.take_reading_back(place); }}};
    case Form::insulation_not_within:
    case Form::insulation_below_class_two:
    case Form::insulation_undecided:
    case Form::insulation_unread:
      return ways_to_read_insulation([this, part = bar.part](InsulationMeter meter) { ask_insulation(part, meter); });
    case Form::leak_unexplained:
      return {{say_(OHMWRIGHT_TEXT("it is wetted, unplugged and proved dead: type the insulation, read at 500 V")),
               [this, part = bar.part] { ask_insulation(part, InsulationMeter::tester); }},
              replace_choice(),
              mistyped_choice(bar.entry)};
    case Form::leak_beside:
    case Form::leak_fell_away:
      return {replace_choice(), mistyped_choice(bar.entry)};
    case Form::electronics_unread:
      return {{say_(OHMWRIGHT_TEXT("type the reading")),
               [this, part = bar.part] { ask_insulation(part, InsulationMeter::ordinary); }}};
    case Form::circuit_insulation_unread:
    case Form::no_insulation_read:
    case Form::insulation_unproved:
      return ways_to_read_insulation([this](InsulationMeter meter) { ask_whose_insulation(meter); });
    case Form::earth_bond_not_within:
    case Form::earth_bond_undecided:
    case Form::earth_bond_unread:
    case Form::earth_bond_unproved:
      return ways_to_read_bond();
    case Form::condemned_for_good:
    case Form::opened_for_good:
      return {replace_choice(),
              {say_(OHMWRIGHT_TEXT("that was mistyped: take that reading back")),
               [this, entry = bar.entry] { job_.act(correct_job, {entry}); }}};
    case Form::new_part_not_within:
    case Form::part_not_within:
    case Form::mended_unread:
    case Form::limit_unread:
    case Form::new_part_undecided:
    case Form::new_part_unread:
      return {{say_(OHMWRIGHT_TEXT("type the reading")), [this, place = bar.place] { reading_.read_at(place); }},
              replace_choice()};
    case Form::heat_did_not_end:
      return {replace_choice(), mistyped_choice(bar.entry)};
    case Form::heat_did_not_come:
    case Form::heat_end_unproved:
    case Form::heat_unproved:
      return {replace_choice(),
              {say_(OHMWRIGHT_TEXT("force one again")), [this] { ask_forced_defrost(); }},
              mistyped_choice(bar.entry)};
    case Form::log_shows_fault:
    case Form::log_unproved:
      return {replace_choice(),
              {say_(OHMWRIGHT_TEXT("a later log is there: type its file")), [this] { ask_log(); }},
              mistyped_choice(bar.entry)};
    case Form::cause_unlooked_for:
    case Form::trip_unlooked_for:
    case Form::forced_defrost:  // these are asked for as steps of their own
    case Form::log:
      return {};
  }
  return {};
}

std::vector<CallTalk::Choice> CallTalk::ways_to_read_bond() {
  const auto bond = [this](const std::string& current) {
    return [this, current] {
      const auto value =
          screen_.typed_value(say_(OHMWRIGHT_TEXT("Earth bond with its cord (such as 0.12 ohm, or OL)")));
      if (!value) return;
      if (current.empty()) {
        job_.act(verify_in_talk, {}, {{"--earth-bond", *value}});
      } else {
        job_.act(verify_in_talk, {}, {{"--earth-bond", *value}, {"--test-current", current}});
      }
    };
  };
  return {
      {say_(OHMWRIGHT_TEXT("type the earth bond, read with a bond tester of 10 A or more")), bond("10A")},
      {say_(OHMWRIGHT_TEXT("type it, read with an ordinary meter: that may condemn it, and proves nothing")), bond({})},
      {say_(OHMWRIGHT_TEXT("it has no protective earth (class II)")), [this] {
         const auto why =
             screen_.typed_words(say_(OHMWRIGHT_TEXT("What shows it (such as: class II on its rating plate)")));
         if (why) job_.act(verify_in_talk, {}, {{"--earth-bond", "none"}, {"--because", *why}});
       }}};
}

std::vector<CallTalk::Choice> CallTalk::ways_to_read_insulation(const std::function<void(InsulationMeter)>& read) {
  return {{say_(OHMWRIGHT_TEXT("it is unplugged and proved dead: type the insulation, read at 500 V")),
           [read] { read(InsulationMeter::tester); }},
          {say_(OHMWRIGHT_TEXT("type it, read with an ordinary meter: that may condemn it, and proves nothing")),
           [read] { read(InsulationMeter::ordinary); }}};
}

void CallTalk::ask_insulation(const std::string& part, InsulationMeter meter) {
  const auto value = screen_.typed_value(say_(OHMWRIGHT_TEXT("Insulation (such as 200 Mohm, or >200M)")));
  if (!value) return;
  // Who has one meter reads OL with it all the same, and more than its ohms range is no test of 500 V.
  if (meter == InsulationMeter::tester && is_over_range_word(*value))
    screen_.choose(say_(OHMWRIGHT_TEXT("OL of which meter?")),
                   {{say_(OHMWRIGHT_TEXT("an insulation tester, set to 500 V")), [] {}},
                    {say_(OHMWRIGHT_TEXT("an ordinary meter")), [&meter] { meter = InsulationMeter::ordinary; }}});
  if (screen_.has_stopped()) return;
  std::vector<std::string> words{part, "insulation=" + *value};
  if (meter == InsulationMeter::tester) words.insert(words.end(), {"--test", "500V"});
  words.emplace_back("--proved-dead");
  const auto connection = [&words](const char* word) { return [&words, word] { words.emplace_back(word); }; };
  if (hangs_on_its_leads(*value))  // a low one condemns the part alone only where nothing else is beside it
    screen_.choose(say_(OHMWRIGHT_TEXT("How was it read?")),
                   {{say_(OHMWRIGHT_TEXT("its leads were off, by itself")), connection("--lead-off")},
                    {say_(OHMWRIGHT_TEXT("its leads were on")), connection("--in-circuit")}});
  if (hangs_on_its_leads(*value) && !screen_.has_stopped())  // dried, it would be taken for mended
    screen_.choose(say_(OHMWRIGHT_TEXT("Was it wet, of melt water or ice?")),
                   {{say_(OHMWRIGHT_TEXT("dry")), connection("--dry")},
                    {say_(OHMWRIGHT_TEXT("wet")), connection("--wet")},
                    {say_(OHMWRIGHT_TEXT("nobody knows")), [] {}}});
  if (!screen_.has_stopped()) job_.act(read_in_talk, words);
}

void CallTalk::ask_whose_insulation(InsulationMeter meter) {
  const Appliance appliance = appliance_of(job_.call(), environment_);
  std::vector<Choice> choices;
  for (const std::size_t part : parts_with_insulation(appliance, environment_)) {
    const PlacedPart& placed = appliance.parts[part];
    choices.push_back({placed.title, [this, id = placed.id, meter] { ask_insulation(id, meter); }});
  }
  choices.push_back({say_(OHMWRIGHT_TEXT("go back")), [] {}});
  screen_.choose(say_(OHMWRIGHT_TEXT("Whose insulation?")), choices);
}

void CallTalk::ask_forced_defrost() {
  if (const std::vector<job::ProofStep> bars = bars_to_heating(job_.call(), environment_); !bars.empty())
    return ask_bar(bars.front(), {{say_(OHMWRIGHT_TEXT("no forced defrost")),
                                   [this] { job_.note_stage(job::Stage::no_forced_defrost); }},
                                  take_back_choice()});
  bool yes = false;
  screen_.line(caution_line_of_step("forced-defrost", say_));
  screen_.choose(
      say_(
          OHMWRIGHT_TEXT("Now a forced defrost, live: the limit proved and not bridged, the drain clear, a time limit, "
                         "and you stay beside it; only if you are qualified.")),
      {{say_(OHMWRIGHT_TEXT("I am, and agree; record it")), [&yes] { yes = true; }},
       {say_(OHMWRIGHT_TEXT("no forced defrost")), [this] { job_.note_stage(job::Stage::no_forced_defrost); }}});
  if (!yes) return;
  const auto result = [this](const std::string& how) {
    return [this, how] { job_.act(verify_in_talk, {}, {{"--forced-defrost", how}, {"--live-agreed", ""}}); };
  };
  screen_.choose(say_(OHMWRIGHT_TEXT("How did it go?")),
                 {{say_(OHMWRIGHT_TEXT("it heated, and ended by itself")), result("ended")},
                  {say_(OHMWRIGHT_TEXT("it did not heat")), result("no-heat")},
                  {say_(OHMWRIGHT_TEXT("it heated, and did not end by itself")), result("did-not-end")}});
}

void CallTalk::ask_log() {
  const std::optional<std::string> after =
      screen_.typed_words(say_(OHMWRIGHT_TEXT("File of the log from after the repair")));
  if (!after) return;
  job_.act(verify_in_talk, {}, {{"--log", *after}});
}

void CallTalk::ask_log_or_not() {
  screen_.choose(say_(OHMWRIGHT_TEXT("A log over some days proves that it defrosts by itself.")),
                 {{say_(OHMWRIGHT_TEXT("the log is there: type its file")), [this] { ask_log(); }},
                  {say_(OHMWRIGHT_TEXT("wait for the log")), [this] { wait_for("log"); }},
                  {say_(OHMWRIGHT_TEXT("no log")), [this] { job_.note_stage(job::Stage::no_log); }}});
}

}  // namespace ohmwright::cli
