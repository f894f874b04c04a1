#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/component/meter.hpp>
#include <ohmwright/document/document.hpp>

namespace ohmwright::course {

/// Something that can be looked at without a meter, and whether it is there.
struct Look {
  std::string id;
  std::string title;
  bool seen = false;
};

/// A part as an answer can name it.
struct AnswerPart {
  std::string id;
  std::string title;
  std::string plate;                                        ///< what is stamped on it; empty: nothing that helps
  std::vector<std::pair<std::string, std::string>> faults;  ///< id and title
};

/// What a thermometer shows of a zone: the same whatever is wrong.
struct ZoneShown {
  std::string zone;         ///< its title; as found with the parts in it
  std::string temperature;  ///< with its ±: "21.0 °C ± 1.0 K"
};

/// Where a reading is found in an exercise: set-up ("" as found), test point, leads left in.
struct ReadingPlace {
  std::string set_up;
  std::string test_point;
  bool leads_in = false;

  friend bool operator<(const ReadingPlace& a, const ReadingPlace& b) {
    return std::tie(a.set_up, a.test_point, a.leads_in) < std::tie(b.set_up, b.test_point, b.leads_in);
  }
};

/// A meter that has no ranges yet.
Meter meter_without_ranges();

/// What a student gets: all that instruments and eyes would find, and nothing of what is wrong.
struct Exercise {
  std::string name;  ///< ten hexadecimal digits that tell nothing
  std::string title;
  std::string complaint;            ///< blanks behind it: no file is longer because of what its owner says
  bool on_the_table = false;        ///< a part alone: no plug, nothing to look at, no lead to lift
  Appliance places;                 ///< its covers, test points and set-ups alone: no parts, no wiring
  std::vector<ZoneShown> as_found;  ///< how warm every zone is
  std::vector<std::vector<ZoneShown>> after_set_up;  ///< by set-up of `places`: the zones that it warms or chills
  std::vector<bool> lifts_leads;                     ///< by test point: the student chooses whether the leads come off
  Meter meter = meter_without_ranges();              ///< its ranges; not its accuracy
  std::vector<AnswerPart> parts;
  std::vector<Look> looks;
  std::vector<std::pair<std::string, std::string>> cautions;  ///< id and words
  std::size_t repeats = 1;
  /// By place, in the file's order of places: what is shown the first time, the second time, … [SI]; nothing is OL.
  std::vector<std::pair<ReadingPlace, std::vector<std::optional<double>>>> readings;
};

/// The student's file (schemas/exercise.schema.json). Its length is the same whatever the readings are.
std::string exercise_text(const Exercise& exercise);

/// Reads it back. Throws DocumentError with all that is wrong.
Exercise read_exercise(const Document& document);

/// Limits that a student's file or a key keeps to.
DocumentLimits course_limits();

}  // namespace ohmwright::course
