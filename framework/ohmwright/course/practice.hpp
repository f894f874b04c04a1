#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include <ohmwright/course/exercise.hpp>
#include <ohmwright/course/record.hpp>
#include <ohmwright/locate/work.hpp>

namespace ohmwright::course {

// What can hurt in an exercise, as entries of a record call it.
inline constexpr std::string_view ohms_on_live = "ohms-on-live";            ///< ends the exercise
inline constexpr std::string_view not_proved_dead = "not-proved-dead";      ///< unplugged, and nobody tested
inline constexpr std::string_view opened_while_live = "opened-while-live";  ///< covers or leads off, plugged in

/// No exercise hides more faults.
inline constexpr std::size_t most_faults_named = 2;

/// What to say to a student of a hazard.
std::string_view hazard_text(std::string_view hazard);

/// What to say before an appliance is plugged in.
std::string_view before_plugging_in();

/// A student at the bench: plugged in and closed at first; a part on the table has no plug and is dead. Does what is
/// wished as it would go in life, and says what came of it. The same wishes always give the same, so that a record can
/// be played again.
class Practice {
 public:
  /// `exercise` must outlive it.
  explicit Practice(const Exercise& exercise);

  /// `wish` with what was shown, the minutes and the hazards filled in. Throws InputError for what cannot be done here;
  /// then nothing has happened.
  Entry perform(Entry wish);

  /// The least confidence that an answer can have [0…1]: that of a blind pick among the parts and "nothing". Whoever
  /// holds an answer for less likely holds another one for likelier.
  static double least_confidence(const Exercise& exercise);

  bool is_stopped() const { return stopped_; }
  bool is_answered() const { return answered_; }
  bool is_plugged_in() const { return work_.power == locate::WorkState::Power::live; }
  bool is_proved_dead() const { return proved_dead_; }
  double minutes() const { return minutes_; }
  std::size_t entries() const { return entries_; }

 private:
  void measure(Entry& wish);
  void answer(const Entry& wish) const;
  double work_minutes(const locate::Measurement& measurement) const;
  std::optional<double> value_at(const ReadingPlace& place);

  const Exercise* exercise_;
  locate::WorkState work_;
  bool proved_dead_ = false;
  bool stopped_ = false;
  bool answered_ = false;
  double minutes_ = 0.0;
  std::size_t entries_ = 0;
  std::map<ReadingPlace, std::size_t> readings_at_;
};

/// The wish that a line of words says: `unplug`, `prove-dead`, `plug-in`, `look ID`, `note WORDS`,
/// `measure POINT[@SETUP] [lead-off|in-circuit] [range=600ohm] [live-agreed]`. Throws InputError naming what there is.
Entry wish_in(const std::string& line);

}  // namespace ohmwright::course
