#pragma once

#include <optional>
#include <string>
#include <vector>

#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/locate/diagnosis.hpp>
#include <ohmwright/report/sentences.hpp>

#include "environment.hpp"
#include "job/book_file.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// Takes what was read into a job: judges it, writes it down, and says what was judged and what comes next. What is
/// typed and what `--from` reads from an instrument go the same way; a live step needs its yes before either.
class JobReader {
 public:
  JobReader(JobAtHand& job, const Arguments& arguments, Environment& environment, bool tells_what_is_next);

  /// TESTPOINT[@SETUP]=VALUE, each with the verdict of the part it is of, if it is of one. With --from one test point
  /// without its value. Gives the exit code.
  int read_test_points();
  /// PART or KIND and readings, in the words of `check`. Gives the exit code.
  int read_part();

 private:
  /// The kind that was typed where a part of the appliance is not. Throws InputError that names the parts.
  const LoadedKind& kind_of_no_part(const std::optional<Appliance>& appliance) const;
  /// Whether a reading of the part was within its limits, since the last work on it.
  bool was_read_good(const std::string& part) const;
  /// Refuses what is said of a part's reading beside test points, and tells the way that works. Throws InputError.
  void refuse_words_of_a_part(const std::vector<std::string>& points, const Appliance& appliance) const;
  /// A new part is judged as what went in, not as what it would pass for. Throws InputError.
  void refuse_other_ratings_than_went_in(const std::string& part, const LoadedKind& kind) const;
  /// Refuses a live step while it is not proved safe, or without the explicit yes, which is written down once.
  void agree(const std::string& step);
  /// The same at a test point, and of a part; where something may heat, also while what limits the heat is not proved.
  void agree_to(const Appliance& appliance, const locate::Measurement& measurement);
  void agree_to(const Descriptor& kind, const std::string& part);
  void refuse_while_it_heats(const std::string& step) const;
  /// What the instrument of --from shows at a test point, put behind the word as if it was typed.
  std::string with_value_from_instrument(const std::string& word, const Appliance& appliance);
  /// `at`: the temperature of its part for this reading alone.
  void add_test_point(const std::string& word, const std::optional<std::string>& at, Appliance& appliance);
  /// Whether what was read through the circuit after a repair is what an appliance in order shows there.
  bool is_as_it_should(const std::string& word, const std::vector<std::string>& zones) const;
  /// What to measure, where a verdict hangs on a temperature that nobody measured.
  void tell_zone_to_measure(const Appliance& appliance, const locate::Site& site, const locate::TakenReading& taken);
  /// A way to the frame is a stop at once, whatever else the reading says.
  void add_leak(const Appliance& appliance, const locate::TakenReading& taken, const Meter& meter, const Sentences& say,
                std::vector<job::ContentWriter>& safety);
  /// Of several readings the worst is the answer.
  void take_outcome(Outcome outcome);
  /// Writes all down, then says what was judged and what to do next.
  int finish();
  /// What was found bad before and was not read good since stands beside every reading.
  void tell_dangers();

  JobAtHand& job_;
  Arguments arguments_;  ///< with the job's meter where none was typed
  Environment& environment_;
  std::string happened_;
  bool has_meter_of_its_own_ = false;
  bool tells_what_is_next_ = true;
  std::vector<job::NewEntry> entries_;
  std::vector<std::string> agreed_;  ///< live steps of this call
  std::vector<std::string> stops_;
  std::vector<std::string> pages_;
  int outcome_ = 0;
};

}  // namespace ohmwright::cli
