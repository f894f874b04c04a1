#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/job/service_call.hpp>
#include <ohmwright/locate/search.hpp>
#include <ohmwright/quantity/unit_preferences.hpp>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// What was said and read between two entries, by the times that were stated; null: without an end there.
struct TimeSpan {
  const job::Told* from = nullptr;
  const job::Told* to = nullptr;

  bool holds(const job::Told& told) const {
    return (from == nullptr || !told.happened_before(*from)) && (to == nullptr || told.happened_before(*to));
  }
};

/// The search for the fault of a call, with what its book says.
class JobSearch {
 public:
  /// Which of it is weighed.
  enum class Reach {
    signs,      ///< before any reading
    diagnosis,  ///< all that was known when the first part was replaced
    now,        ///< after a repair: what was read and seen since, the new parts taken for good
  };

  /// A reading for the search, with the temperatures that were stated with it.
  struct ReadingOfPart {
    locate::TakenReading taken;
    std::vector<SetTemperature> stated;
  };

  /// `typed` are the arguments of the call: --allow-live is looked at. Throws as the words of `locate` do.
  JobSearch(const job::ServiceCall& call, const Arguments& typed, const Environment& environment, Reach reach);
  /// By what was said and read in that span alone; the parts that went in until it began are taken for good.
  JobSearch(const job::ServiceCall& call, const Arguments& typed, const Environment& environment, const TimeSpan& span);
  JobSearch(const JobSearch&) = delete;
  JobSearch& operator=(const JobSearch&) = delete;
  ~JobSearch() = default;

  const Appliance& appliance() const { return appliance_; }
  const Meter& meter() const { return meter_; }
  UnitPreferences& units() { return units_; }
  locate::Search& search() { return *search_; }
  /// The next steps, best first; while something bars energising, no look and nothing live, and while what limits the
  /// heat is not proved, nothing in a set-up that is live.
  std::span<const locate::Step> steps() const { return steps_; }
  /// Whether it ends in "stop: licensed refrigerant work".
  bool stops_at_sealed_system() const { return search_->standing().form == locate::Standing::Form::sealed_system; }
  /// What was said and read, and names nothing in the appliance's file any more: it was changed, or another was named.
  std::span<const std::string> passed_over() const { return passed_over_; }

 private:
  enum class Weighs : bool { signs_alone, readings_too };
  JobSearch(const job::ServiceCall& call, const Arguments& typed, const Environment& environment, const TimeSpan& span,
            Weighs weighs);
  std::optional<ReadingOfPart> reading_in(const job::MeasuredValue& value);
  void add_readings(const job::ServiceCall& call, const TimeSpan& span, const locate::Site& now);
  bool is_barred(const locate::Step& step) const;

  Appliance appliance_;
  Meter meter_;
  UnitPreferences units_;
  std::vector<locate::TakenReading> readings_;
  std::size_t first_of_visit_ = 0;  ///< of them: between two visits it is closed, plugged in, and used
  std::optional<locate::Search> search_;
  std::vector<locate::Step> steps_;
  std::vector<std::string> passed_over_;
  bool bars_energising_ = false;
  bool bars_heating_ = false;
};

/// The instruments that a call names, as words for --meter: what was named last first, since that is the usual one from
/// then on; of one name the last. The text of a file where the book keeps it.
struct MetersOfCall {
  std::vector<std::string> words;
  std::string lost;  ///< the file that was named last, where it can no longer be read; empty: none
};
MetersOfCall meters_of_call(const job::ServiceCall& call, const Environment& environment);

/// The usual meter of a call: the first of them, or the basic class.
Meter meter_of_call(const job::ServiceCall& call, const Environment& environment);

/// Whether a sign that only the sealed refrigerant system shows was seen, and is not said to be no longer so.
bool signs_speak_of_sealed_system(const job::ServiceCall& call);

/// Whether the refrigerant may burn, by what was said of its label; true where nobody read it.
bool label_may_burn(const job::ServiceCall& call);

/// Whether what was seen and read until now speaks of the sealed refrigerant system: then a leak is suspected, and
/// nothing is tested with 500 V, heated or plugged in any more. What was seen before a repair counts until it is said
/// to be no longer so. Of a call without an appliance its signs alone tell.
bool stops_at_sealed_system(const job::ServiceCall& call, const Arguments& arguments, const Environment& environment);
/// The same where the search of the call (`Reach::now`) is at hand.
bool stops_at_sealed_system(const job::ServiceCall& call, const JobSearch& now, const Environment& environment);

/// The words that were said of a call, as the options of `locate`.
Arguments locate_words_of(const job::ServiceCall& call, const TimeSpan& span = {});
/// Those of them that name something in the appliance; the others go to `passed_over`, if it is given.
Arguments words_for(const Appliance& appliance, Arguments words, std::vector<std::string>* passed_over = nullptr);

}  // namespace ohmwright::cli
