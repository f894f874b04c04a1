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

std::string possible_faults_title(const JobReport& report, const Sentences& say) {
  return say(report.call.replaced.empty() ? OHMWRIGHT_TEXT("Possible faults now")
                                          : OHMWRIGHT_TEXT("Possible faults by what was read before the repair"));
}

std::string proof_text(const job::ProofStep& step, const Sentences& say) {
  const job::ProofRow& row = job::row_of(step.form);
  return say(step.mended && !row.of_mended.empty() ? row.of_mended : row.sentence,
             {{"part", step.subject}, {"place", step.place}});
}

}  // namespace ohmwright
