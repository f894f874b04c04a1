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
#include <ohmwright/course/replay.hpp>
#include <ohmwright/plugin/registry.hpp>

namespace ohmwright::course {

/// How much each mark counts (schemas/course-weights.schema.json); a file that leaves a mark out gives it no weight.
struct MarkWeights {
  double part = 30.0;
  double good_parts = 20.0;
  double safety = 20.0;
  double confidence = 10.0;
  double inference = 20.0;
  double minutes = 0.0;  ///< speed weighs nothing unless the instructor says so
  double expected_minutes = 60.0;
};

/// Reads weights. Throws DocumentError with all that is wrong, and where no mark has a weight.
MarkWeights read_weights(const Document& document);

/// Marks, each from 0 to 1.
struct Marks {
  /// Parts rightly named over all that were named or at fault, whichever are more: a second guess halves it. A part
  /// counts half whose fault was named wrongly against the student's own readings. Of a healthy appliance 1 where none
  /// was named.
  double part = 0.0;
  double good_parts = 0.0;  ///< 1, less a half for each good part condemned
  /// 1, less a quarter for each hazard; 0 for ohms on a live circuit. Nothing of who never measured: the other marks
  /// count half, for what was named is a guess; with 0 a quarter.
  std::optional<double> safety;
  double confidence = 0.0;  ///< `confidence_mark`
  double inference = 0.0;   ///< `inference_mark`
  double minutes = 0.0;
};

/// 1 − P/2 with the score P of G. W. Brier, Monthly Weather Review 78 (1950) 1–3, equation 2, over `answers` answers
/// (at least 2): the confidence [0…1] on the one that was given, the rest evenly on the others. It is proper: nobody
/// gains by stating another confidence than their own. A sure and right answer earns 1, a sure and wrong one 0, and who
/// knows nothing and says so earns about a half, right or wrong.
double confidence_mark(double confidence, bool is_right, std::size_t answers);

/// What the cited readings did for the answer that was given, right or wrong: how far they took a probability of it
/// from `before` any reading to what was `needed` to decide it. Two are asked, that these parts are at fault and that
/// they alone are (`Reasoning::is_told`), and the lesser counts. Readings that leave the others as likely as they were
/// earn nothing, however likely the answer was from the beginning. All [0…1].
double inference_mark(double before, double after, double needed);

/// One record, marked.
struct Graded {
  std::string file;
  std::vector<std::string> students;
  std::string exercise;
  std::string refused;  ///< why there are no marks; empty: there are
  bool was_edited = false;
  bool was_stopped = false;              ///< for ohms on a live circuit, which is told of whoever did not answer, too
  std::string same_as;                   ///< which other record it shares its beginning with, and how far
  std::string copied_by;                 ///< in place of that: the record that was made from this one, and edited
  std::vector<std::string> check_words;  ///< of each stop and of the answer: what the student must have read out
  std::vector<std::string> links;        ///< of the record, by entry
  Marks marks;
  double total = 0.0;  ///< 0…100 by the weights; an edited record has none
  std::string note;    ///< of an instructor who set the total aside
  double minutes = 0.0;
  double confidence = 0.0;
  double followed = 0.0;                  ///< probability of the answer by the readings cited
  std::size_t readings_cited = 0;         ///< of those that tell something
  std::vector<std::string> misnamed;      ///< faults that were named, are not there, and that the student's readings
                                          ///< rule out, though their parts may be at fault
  std::optional<std::size_t> decided_at;  ///< entry that turned the readings to decided
  std::vector<std::string> words;         ///< what a student can learn from
  /// The reasoning's time line: after each reading and look, what all so far makes likeliest. Empty unless asked for.
  std::vector<std::string> time_line;

  /// Whether there are marks to show: an edited record has some only where an instructor set them.
  bool has_marks() const { return refused.empty() && (!was_edited || !note.empty()); }
};

/// Marks records of one key. Belongs to one thread; the second record at a bench is cheaper than the first.
class Grader {
 public:
  /// Throws DocumentError where the key's appliance cannot be made with the kinds at hand.
  Grader(CourseKey key, const Registry& registry, const MarkWeights& weights);
  Grader(const Grader&) = delete;
  Grader& operator=(const Grader&) = delete;
  ~Grader();

  /// `with_time_line` costs the engine's work at every entry.
  Graded grade(const Record& record, const std::string& file, bool with_time_line = false);
  const CourseKey& key() const { return key_; }

 private:
  struct Station;
  Station& station_of(const MadeExercise& made);
  const MadeExercise* made_for(const std::string& exercise) const;
  Marks marks_of(const Station& station, const MadeExercise& made, const Replay& replay, const Graded& graded) const;
  static void reason(Station& station, const MadeExercise& made, const Record& record, const Replay& replay,
                     Graded& graded);

  CourseKey key_;
  MarkWeights weights_;
  Appliance appliance_;
  std::map<std::optional<std::size_t>, std::unique_ptr<Station>> stations_;
};

}  // namespace ohmwright::course
