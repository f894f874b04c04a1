#pragma once

#include <string>

#include <ohmwright/report/sentences.hpp>

#include "environment.hpp"
#include "job/reading_judged.hpp"
#include "job/talk_screen.hpp"
#include "job/talked_job.hpp"

namespace ohmwright::cli {

/// A reading in a conversation, with the temperature that it is judged by.
class TalkReading {
 public:
  TalkReading(Environment& environment, TalkScreen& screen, TalkedJob& job)
      : environment_(environment), screen_(screen), job_(job) {}

  /// Asks what is shown at a test point, or of a part, and takes it; a `value` is typed already. What is refused is
  /// asked again.
  void read_at(const std::string& place, const std::string& value = {}, const TalkedJob::Options& options = {});

 private:
  bool read_once(const std::string& place, const std::string& value, const TalkedJob::Options& options);
  /// Asks for the temperature at the part, where its verdict hangs on it, and whether one that was said before still
  /// holds; false to go back.
  bool ask_temperature(const std::string& word);
  std::string question_of_temperature(const ZoneToMeasure& hangs_on, const Appliance& appliance,
                                      const locate::Site& site, const UnitPreferences& units) const;

  Environment& environment_;
  TalkScreen& screen_;
  TalkedJob& job_;
  Sentences say_{UnitPreferences{}};
};

}  // namespace ohmwright::cli
