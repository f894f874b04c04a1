#pragma once

#include <span>
#include <string>
#include <utility>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/meter.hpp>
#include <ohmwright/component/reading.hpp>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// Files of the meters that one call may read, each with what it is called: those named with `--meter`, and the shipped
/// classes that are taken where none of them shows what was read.
std::vector<std::pair<std::string, std::string>> meter_files(const Arguments& arguments,
                                                             const Environment& environment);

/// The instruments of one call: those named with `--meter`, and what is taken where they do not show what was read.
class Instruments {
 public:
  /// Reads the named meters, the basic class where none was named. Throws as `chosen_meter` does, and InputError for
  /// two of one name.
  Instruments(const Arguments& arguments, const Environment& environment);

  /// The named ones, then those that `choose` took; the first is the usual one.
  const MeterSet& meters() const { return meters_; }
  /// Whether not even the usual one was named.
  bool is_usual_assumed() const { return usual_assumed_; }
  /// Whether the meter of that name was taken though nobody named it.
  bool is_assumed(const std::string& name) const;

  /// Notes on each reading which instrument read it: the first of the named that shows it; for a quantity that none of
  /// them reads, and for amperes past their ranges, a class of the shipped ones. Readings that state their uncertainty
  /// need none.
  void choose(std::span<Reading> readings, const Descriptor& descriptor);

 private:
  void choose_for(Reading& reading, Dimension dimension);
  void take_assumed(Reading& reading, Dimension dimension);

  const Environment& environment_;
  MeterSet meters_;
  std::size_t named_ = 0;
  bool usual_assumed_ = false;
};

}  // namespace ohmwright::cli
