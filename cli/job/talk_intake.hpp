#pragma once

#include <optional>

#include <ohmwright/appliance/kit.hpp>

#include "environment.hpp"
#include "job/talk_screen.hpp"
#include "job/talked_job.hpp"

namespace ohmwright::cli {

/// The beginning of a call in a conversation: which job it is, the phone, the appliance, what is seen.
class TalkIntake {
 public:
  TalkIntake(Environment& environment, TalkScreen& screen, TalkedJob& job)
      : environment_(environment), screen_(screen), job_(job) {}

  /// The job that is open, another visit for a closed one, or a new one; false where the person stops.
  bool take_up();
  /// The next question of the phone; false where there is none.
  bool ask_phone();
  /// Which of the shipped ones it is, a file, or none of them.
  void ask_appliance();
  /// Questions about one that has no file, each answer kept; then a generic one is built.
  void ask_kit();
  /// Whether somebody said what is seen, on a call-back since that began.
  bool was_looked_at() const;
  /// All that is seen in one line: numbers with blanks between them.
  void ask_symptoms();

 private:
  /// Which job it is, where there is more to choose than a new one: the open one, or the last that was closed.
  void choose_job(const std::optional<job::JobLine>& open, const std::optional<job::JobLine>& closed, bool& begins);
  KitAnswers kit_answers() const;
  /// What the phone said already is not asked again.
  void take_from_phone(KitAnswers& answers) const;

  Environment& environment_;
  TalkScreen& screen_;
  TalkedJob& job_;
  Sentences say_{UnitPreferences{}};
};

}  // namespace ohmwright::cli
