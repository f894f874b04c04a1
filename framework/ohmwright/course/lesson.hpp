#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <ohmwright/course/bench.hpp>
#include <ohmwright/course/exercise.hpp>
#include <ohmwright/course/reasoning.hpp>
#include <ohmwright/course/secret.hpp>

namespace ohmwright::course {

/// What is hidden in an exercise.
enum class Lesson : std::uint8_t {
  one_part,    ///< a part alone on the table, good or with one fault
  one_fault,   ///< one fault in the whole circuit
  two_faults,  ///< two at once, or one that comes and goes
  healthy,     ///< nothing, and a symptom that misleads
  mixed,       ///< one of the last three, drawn anew for each exercise
};

/// "one-part"
std::string_view name_of(Lesson lesson);
/// Throws InputError naming what there is.
Lesson lesson_named(const std::string& name);

/// Throws InputError for a meter that has no range for something that the lesson's test points ask: ohms of a part on
/// the table, of an appliance whatever its file says.
void refuse_meter_that_cannot_read(const Meter& meter, const Appliance& appliance, Lesson lesson);

/// What is asked of `Workshop::make`.
struct Order {
  Lesson lesson = Lesson::one_fault;
  std::uint64_t index = 0;
  std::optional<std::size_t> part;  ///< of `one_part`: which; else drawn
};

/// What only the key says of an exercise.
struct Truth {
  std::string exercise;
  Lesson lesson = Lesson::one_fault;
  std::optional<std::size_t> table_part;  ///< of `one_part`: which part of the appliance lies on the table
  std::vector<PartFault> faults;          ///< of the bench's appliance
  std::vector<std::string> names;         ///< "heater.open"
  double tellable = 0.0;                  ///< least probability of the truth by all readings, with looks or without
};

struct MadeExercise {
  Exercise exercise;
  Truth truth;
};

/// Makes exercises from one appliance. Faults are drawn by the weights that `locate` prints, among those that the
/// readings of the bench can tell and looks alone cannot: an exercise that nobody could solve, or that nobody would
/// have to measure at, is drawn again.
class Workshop {
 public:
  /// All of these must outlive the workshop.
  Workshop(const Appliance& appliance, const Meter& meter, const CourseSecret& secret);

  /// Throws InputError where the meter cannot read what the lesson asks, and where the appliance has no fault of that
  /// lesson that its test points can tell and looks alone cannot.
  MadeExercise make(const Order& order);

 private:
  /// A bench, and what the engine has worked out for it.
  struct Station {
    Station(Bench made, const Meter& meter) : bench(std::move(made)), reasoning(bench, meter) {}
    Bench bench;
    Reasoning reasoning;
  };

  Station& station(std::optional<std::size_t> table_part);
  MadeExercise make_at(Station& station, Lesson lesson, const Order& order) const;

  const Appliance* appliance_;
  const Meter* meter_;
  const CourseSecret* secret_;
  std::map<std::optional<std::size_t>, std::unique_ptr<Station>> stations_;  ///< by part on the table
};

/// The exercise without readings: places, parts, cautions, meter.
Exercise empty_exercise(const Bench& bench, const locate::FaultList& faults, const Meter& meter);

}  // namespace ohmwright::course
