#include <algorithm>
#include <array>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/job_report.hpp>

namespace ohmwright {

namespace {

struct JobWord {
  std::string_view id;
  std::string_view english;
};

constexpr std::array phone_words{
    JobWord{"tingles", OHMWRIGHT_TEXT("It tingles when touched")},
    JobWord{"burning_smell", OHMWRIGHT_TEXT("Burning smell")},
    JobWord{"refrigerant", OHMWRIGHT_TEXT("Refrigerant on its label")},
    JobWord{"volts", OHMWRIGHT_TEXT("Volts of the outlet")},
    JobWord{"room", OHMWRIGHT_TEXT("Temperature of the room")},
    JobWord{"frost", OHMWRIGHT_TEXT("Frost seen")},
    JobWord{"tried", OHMWRIGHT_TEXT("Tried already")},
};

template <class Words>
std::string word_of(const Words& words, std::string_view id, const Sentences& say) {
  const auto word = std::find_if(words.begin(), words.end(), [id](const JobWord& one) { return one.id == id; });
  return word == words.end() ? std::string(id) : say(word->english);
}

}  // namespace

std::string job_state_text(job::JobState state, const Sentences& say) {
  switch (state) {
    case job::JobState::open:
      return say(OHMWRIGHT_TEXT("open"));
    case job::JobState::declined:
      return say(OHMWRIGHT_TEXT("declined"));
    case job::JobState::waits_for_part:
      return say(OHMWRIGHT_TEXT("waiting for a part"));
    case job::JobState::waits_for_log:
      return say(OHMWRIGHT_TEXT("waiting for a log"));
    case job::JobState::repaired:
      return say(OHMWRIGHT_TEXT("repaired"));
    case job::JobState::stopped:
      break;
  }
  return say(OHMWRIGHT_TEXT("stopped: licensed work"));
}

std::string phone_question(std::string_view question, const Sentences& say) {
  return word_of(phone_words, question, say);
}

namespace {

/// What stands against calling it repaired, and what is left open: what parts read, and what only running shows.
std::string proof_text_of_part(const job::ProofStep& step, const Sentences& say) {
  using Form = job::ProofStep::Form;
  const FindingArgument part{"part", step.subject};
  const FindingArgument place{"place", step.place};
  switch (step.form) {
    case Form::condemned_for_good:
      return say(OHMWRIGHT_TEXT("STOP, do not energise it: {part} opens once and for good, was out of its limits at "
                                "{place}, and no new one went in since. What conducts there now may be a bridge. "
                                "Replace it; if that reading was a slip, take it back."),
                 {part, place});
    case Form::opened_for_good:
      return say(OHMWRIGHT_TEXT("{part} was out of its limits at {place}, and opens once and for good: find what "
                                "overheated it, then replace it, never bridge it. If that reading was a slip, take it "
                                "back."),
                 {part, place});
    case Form::new_part_not_within:
      return step.mended
                 ? say(OHMWRIGHT_TEXT("{part} was mended in place, and is out of its limits all the same, as was read "
                                      "at {place}. Find out why, or replace it, then read it there again."),
                       {part, place})
                 : say(OHMWRIGHT_TEXT("{part}: the new one is out of its limits, as was read at {place}. Find out why, "
                                      "or replace it, then read it there again."),
                       {part, place});
    case Form::part_not_within:
      return say(
          OHMWRIGHT_TEXT("{part} is out of its limits, as was read last at {place}, and nothing says that it was "
                         "replaced or mended since. Say which it was, then read it again; a slip is taken back."),
          {part, place});
    case Form::mended_unread:
      return say(OHMWRIGHT_TEXT("{part} was mended in place, and nothing was read since that shows it good: read it at "
                                "{place}."),
                 {part, place});
    case Form::insulation_unproved:
      return say(OHMWRIGHT_TEXT(
          "It was opened on this visit to read it, and no insulation tester read an insulation in it good."));
    case Form::earth_bond_unproved:
      return say(OHMWRIGHT_TEXT("It was opened on this visit to read it, and its earth bond was not read."));
    case Form::new_part_undecided:
      return step.mended ? say(OHMWRIGHT_TEXT(
                                   "{part}: whether it is good, mended, cannot be told by what was read at {place}."),
                               {part, place})
                         : say(OHMWRIGHT_TEXT(
                                   "{part}: whether the new one is good cannot be told by what was read at {place}."),
                               {part, place});
    case Form::limit_unread:
      return say(OHMWRIGHT_TEXT("{part} limits the heat, and nothing read since it went in shows it good: read it at "
                                "{place}."),
                 {part, place});
    case Form::new_part_unread:
      return say(OHMWRIGHT_TEXT("{part}: the new one was not read as the old one was, at {place}."), {part, place});
    case Form::heat_did_not_end:
      return say(
          OHMWRIGHT_TEXT("STOP, unplug it now: the last forced defrost heated and did not end by itself. Find "
                         "what should have ended it (sensor, thermostat, control), replace or mend it; if that "
                         "was mistyped, take it back."));
    case Form::heat_did_not_come:
      return say(OHMWRIGHT_TEXT("The last forced defrost did not heat. Find out why, mend it, then force one again."));
    case Form::log_shows_fault:
      return say(OHMWRIGHT_TEXT("The last log shows a fault. Find out why, mend it, then log it again."));
    case Form::heat_end_unproved:
      return say(
          OHMWRIGHT_TEXT("A forced defrost heated and did not end by itself, and none has ended by itself since. Be "
                         "sure that what should have ended it (sensor, thermostat, control) was replaced or mended, "
                         "then force one again and stay beside it; until one has ended it is not left plugged in. If "
                         "that was mistyped, take it back."));
    case Form::heat_unproved:
      return say(OHMWRIGHT_TEXT(
          "A forced defrost did not heat, and none has heated and ended by itself since: force one again."));
    case Form::log_unproved:
      return say(OHMWRIGHT_TEXT("A log showed a fault, and none since shows it gone: log it again."));
    case Form::forced_defrost:
      return say(OHMWRIGHT_TEXT("A forced defrost."));
    default:
      break;
  }
  return say(OHMWRIGHT_TEXT("A log over some days."));
}

}  // namespace

std::string proof_text(const job::ProofStep& step, const Sentences& say) {
  using Form = job::ProofStep::Form;
  const FindingArgument part{"part", step.subject};
  switch (step.form) {
    case Form::leak_to_earth:
      return say(OHMWRIGHT_TEXT("STOP, do not energise it: something leaks to earth, as was read at \"{part}\". Mend "
                                "it, then read it there again: a value, or OL with its range."),
                 {part});
    case Form::insulation_not_within:
      return say(OHMWRIGHT_TEXT("The insulation of {part} is not within limits: do not energise it; dry or replace it, "
                                "then read its insulation again."),
                 {part});
    case Form::insulation_undecided:
      return say(OHMWRIGHT_TEXT("The insulation of {part} is not decided: read it again at 500 V."), {part});
    case Form::insulation_unread:
      return step.mended
                 ? say(OHMWRIGHT_TEXT("{part} was mended in place, and its insulation was not read since."), {part})
                 : say(OHMWRIGHT_TEXT("{part} was replaced, and its insulation was not read since."), {part});
    case Form::circuit_insulation_unread:
      return step.mended
                 ? say(OHMWRIGHT_TEXT("{part} was mended in place, and the insulation of its circuit was not read "
                                      "since: unplugged and proved dead, read a part that is wired to it."),
                       {part})
                 : say(OHMWRIGHT_TEXT("{part} was replaced, and the insulation of its circuit was not read since: "
                                      "unplugged and proved dead, read a part that is wired to it."),
                       {part});
    case Form::no_insulation_read:
      return say(
          OHMWRIGHT_TEXT("It tingles, smells burnt, trips or leaks to earth, and no insulation tester has read its "
                         "insulation good since."));
    case Form::earth_bond_not_within:
      return say(OHMWRIGHT_TEXT(
          "The earth bond is not within limits: mend the earth lead or its joints, then read it again."));
    case Form::earth_bond_undecided:
      return say(OHMWRIGHT_TEXT("The earth bond is not decided: read it with a bond tester of 10 A or more."));
    case Form::earth_bond_unread:
      return step.mended
                 ? say(OHMWRIGHT_TEXT("The earth bond was not read since a part was mended in place."))
                 : say(OHMWRIGHT_TEXT("The earth bond was not read since a part was replaced, or since it tingled."));
    default:
      return proof_text_of_part(step, say);
  }
}

}  // namespace ohmwright
