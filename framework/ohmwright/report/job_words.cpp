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

constexpr std::array state_words{
    JobWord{job::is_open, OHMWRIGHT_TEXT("open")},
    JobWord{job::is_declined, OHMWRIGHT_TEXT("declined")},
    JobWord{job::waits_for_part, OHMWRIGHT_TEXT("waiting for a part")},
    JobWord{job::waits_for_log, OHMWRIGHT_TEXT("waiting for a log")},
    JobWord{job::is_repaired, OHMWRIGHT_TEXT("repaired")},
    JobWord{job::is_stopped, OHMWRIGHT_TEXT("stopped: licensed work")},
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

std::string job_state_text(std::string_view state, const Sentences& say) { return word_of(state_words, state, say); }

std::string phone_question(std::string_view question, const Sentences& say) {
  return word_of(phone_words, question, say);
}

std::string obstacle_text(const job::Obstacle& obstacle, const Sentences& say) {
  using Form = job::Obstacle::Form;
  const FindingArgument part{"part", obstacle.subject};
  switch (obstacle.form) {
    case Form::insulation_not_within:
      return say(OHMWRIGHT_TEXT("The insulation of {part} is not within limits: do not energise it; dry or replace it, "
                                "then read its insulation again."),
                 {part});
    case Form::insulation_unread:
      return say(OHMWRIGHT_TEXT("{part} was replaced, and its insulation was not read since."), {part});
    case Form::earth_bond_not_within:
      return say(OHMWRIGHT_TEXT(
          "The earth bond is not within limits: mend the earth lead or its joints, then read it again."));
    case Form::earth_bond_unread:
      return say(OHMWRIGHT_TEXT("A part was replaced, and the earth bond was not read since."));
    case Form::nothing_insulated_read:
      break;
  }
  return say(OHMWRIGHT_TEXT("Somebody felt it tingle, and no insulation was read."));
}

}  // namespace ohmwright
