#pragma once

#include <optional>
#include <string>

#include <ohmwright/job/service_call.hpp>
#include <ohmwright/locate/search.hpp>
#include <ohmwright/quantity/unit_preferences.hpp>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// The search for the fault of a call, with what its book says.
class JobSearch {
 public:
  /// Which of it is weighed.
  enum class Reach {
    signs,      ///< before any reading
    diagnosis,  ///< all that was known when the first part was replaced
    now,        ///< after a repair: what was read and seen since, the new parts taken for good
  };

  /// `typed` are the arguments of the call: --allow-live is looked at. Throws as the words of `locate` do.
  JobSearch(const job::ServiceCall& call, const Arguments& typed, const Environment& environment, Reach reach);
  JobSearch(const JobSearch&) = delete;
  JobSearch& operator=(const JobSearch&) = delete;
  ~JobSearch() = default;

  const Appliance& appliance() const { return appliance_; }
  const Meter& meter() const { return meter_; }
  UnitPreferences& units() { return units_; }
  locate::Search& search() { return *search_; }

 private:
  void add_readings(const job::ServiceCall& call, Reach reach, std::size_t from, std::size_t to);

  Appliance appliance_;
  Meter meter_;
  UnitPreferences units_;
  std::vector<locate::TakenReading> readings_;
  std::optional<locate::Search> search_;
};

/// The meter that was named in the call, or the usual one.
Meter meter_of_call(const job::ServiceCall& call, const Environment& environment);

/// The words that were said of a call, as the options of `locate`.
Arguments locate_words_of(const job::ServiceCall& call, std::size_t from, std::size_t to);

}  // namespace ohmwright::cli
