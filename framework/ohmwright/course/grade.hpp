#pragma once

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <ohmwright/course/key.hpp>
#include <ohmwright/course/reasoning.hpp>
#include <ohmwright/course/record.hpp>
#include <ohmwright/plugin/registry.hpp>

namespace ohmwright::course {

/// How much each mark counts (schemas/course-weights.schema.json).
struct MarkWeights {
  double right_part = 30.0;
  double good_parts = 20.0;
  double safety = 20.0;
  double confidence = 10.0;
  double inference = 20.0;
  double minutes = 0.0;  ///< speed weighs nothing unless the instructor says so
  double expected_minutes = 60.0;
};

/// Reads weights. Throws DocumentError with all that is wrong.
MarkWeights read_weights(const Document& document);

/// Marks, each from 0 to 1.
struct Marks {
  double right_part = 0.0;  ///< share of the parts at fault that were named; of a healthy appliance: none was
  double good_parts = 0.0;  ///< 1, less a half for each good part condemned
  double safety = 0.0;      ///< 1, less a quarter for each hazard; 0 for ohms on a live circuit
  /// 1 − (c − o)² of the confidence c and the outcome o, 1 for right and 0 for wrong: the quadratic score of G. W.
  /// Brier, Monthly Weather Review 78 (1950) 1–3. It is proper: nobody gains by stating another confidence than their
  /// own.
  double confidence = 0.0;
  /// What the engine makes of the cited readings: probability of the answer that was given, right or wrong, over what
  /// would decide it.
  double inference = 0.0;
  double minutes = 0.0;
};

/// One record, marked.
struct Graded {
  std::string file;
  std::vector<std::string> students;
  std::string exercise;
  std::string refused;  ///< why there are no marks; empty: there are
  bool was_edited = false;
  Marks marks;
  double total = 0.0;  ///< 0…100 by the weights; an edited record has none
  std::string note;    ///< of an instructor who set the total aside
  double minutes = 0.0;
  double confidence = 0.0;
  double followed = 0.0;                  ///< probability of the answer by the readings cited
  std::optional<std::size_t> decided_at;  ///< entry that turned the readings to decided
  std::vector<std::string> words;         ///< what a student can learn from
};

/// Marks records of one key. Belongs to one thread; the second record at a bench is cheaper than the first.
class Grader {
 public:
  /// Throws DocumentError where the key's appliance cannot be made with the kinds at hand.
  Grader(CourseKey key, const Registry& registry, const MarkWeights& weights);
  Grader(const Grader&) = delete;
  Grader& operator=(const Grader&) = delete;
  ~Grader();

  Graded grade(const Record& record, const std::string& file);
  const CourseKey& key() const { return key_; }

 private:
  struct Station;
  Station& station_of(const MadeExercise& made);

  CourseKey key_;
  MarkWeights weights_;
  Appliance appliance_;
  std::map<std::optional<std::size_t>, std::unique_ptr<Station>> stations_;
};

}  // namespace ohmwright::course
