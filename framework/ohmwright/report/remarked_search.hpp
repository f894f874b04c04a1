#pragma once

#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/locate/weighed_readings.hpp>
#include <ohmwright/report/locate_report.hpp>

namespace ohmwright {

/// A search whose readings are looked through for what may mislead, with the remarks so far. Between source files of
/// this area, as the functions below.
struct RemarkedSearch {
  RemarkedSearch(const LocateReport& of, const Sentences& in);

  const LocateReport& report;
  const Sentences& say;
  locate::Prober& prober;
  const Appliance& appliance;
  const locate::FaultList& faults;
  std::optional<std::size_t> likeliest;  ///< instance
  std::vector<std::string> remarks;

  /// Adds a remark, once.
  void remark(std::string_view pattern, std::initializer_list<FindingArgument> arguments = {});
  std::string title(const locate::TakenReading& reading) const;
  Probe probe(const locate::TakenReading& reading) const;

  /// The candidate with exactly these faults and no outside cause; null where it is none.
  const locate::Candidate* candidate_with(std::initializer_list<std::uint16_t> with) const;
  /// The one fault of the likeliest explanation, where it is one.
  std::optional<std::uint16_t> only_fault() const;
  /// What a candidate would show [SI], its likeliest instance, the middle one of several alike; nothing for OL and for
  /// what hangs in the air.
  std::optional<double> value_of(const locate::Candidate& candidate, const locate::Measurement& measurement) const;
  std::optional<double> value_of(locate::Prober& by, const locate::Candidate& candidate,
                                 const locate::Measurement& measurement) const;
  double likelihood_of(const locate::Candidate& candidate, const locate::Measurement& measurement,
                       const locate::SeenReading& seen) const;
  static const locate::PredictedOutcome* likeliest_of(const std::vector<locate::PredictedOutcome>& outcomes);
};

/// Of a reading that hangs on a temperature, or on a set-up that may not have taken.
void remark_on_circumstances(RemarkedSearch& search, const locate::TakenReading& reading,
                             const locate::SeenReading& seen);
/// Of ohms that look high because a good contact on their way is warm.
void remark_on_warm_contact(RemarkedSearch& search, const locate::TakenReading& reading,
                            const locate::SeenReading& seen);
/// Of ohms: a range that was too low, a warm contact, the test leads' own, ways beside a part.
void remark_on_ohms(RemarkedSearch& search, const locate::TakenReading& reading, const locate::SeenReading& seen);
/// Of volts: a ghost, a neutral that is live.
void remark_on_volts(RemarkedSearch& search, const locate::TakenReading& reading, const locate::SeenReading& seen);

}  // namespace ohmwright
