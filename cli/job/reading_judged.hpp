#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/job/service_call.hpp>
#include <ohmwright/locate/diagnosis.hpp>
#include <ohmwright/locate/site.hpp>

#include "environment.hpp"
#include "part_check.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

std::optional<std::size_t> part_named(const Appliance& appliance, std::string_view id);
std::optional<std::size_t> test_point_named(const Appliance& appliance, std::string_view id);

/// The test point where that measurand of a part is read at the part's own terminals, a lead of it off; its insulation
/// from one of them to the frame, its leads off.
std::optional<std::size_t> test_point_of_part(const Appliance& appliance, std::string_view part,
                                              std::string_view measurand);

/// The id of the part at whose own terminals the test point's probes are; empty for none.
std::string part_read_at(const Appliance& appliance, std::size_t test_point);

/// What names the ratings of the part that went in last, for `rated_part`: the text of their file where the book keeps
/// it. Empty where none went in, or nobody knows its ratings.
std::string ratings_that_went_in(const job::ServiceCall& call, std::string_view part);
/// Whether they can no longer be read: books of the first versions kept the path of a file alone, and it has moved.
bool ratings_are_lost(const LoadedKind& kind, const std::string& name_or_file);

/// The part as it is in the appliance now: with the ratings of its replacement, where it was replaced. Of one whose
/// ratings are lost nothing is known. Throws InputError where its kind judges none such.
RatedPart placed_part(const Appliance& appliance, std::size_t part, const job::ServiceCall& call);

/// A part's verdict on a reading at a test point that lies at its own terminals, at the temperature and in the state
/// that the site and the set-up say, of a zone that nobody measured at any temperature that it may have; nothing where
/// the reading is of several parts together, or of none.
std::optional<PartCheck> judged_at_test_point(const Appliance& appliance, const locate::Site& site,
                                              const locate::TakenReading& reading, const job::ServiceCall& call,
                                              const UnitPreferences& units, const Arguments& arguments,
                                              const Environment& environment);

/// A zone whose temperature a part's verdict hangs on.
struct ZoneToMeasure {
  enum class Form : std::uint8_t {
    not_measured,  ///< nobody measured it: the part could be judged if it was known
    said_before,   ///< for readings before this one: it may have changed
    as_warm_as,    ///< the part is as warm as this zone, the room, of which nobody said how warm it is
  };

  std::size_t zone = 0;
  Form form = Form::not_measured;
};
std::optional<ZoneToMeasure> zone_to_measure(const Appliance& appliance, const locate::Site& site,
                                             const locate::TakenReading& reading, const job::ServiceCall& call,
                                             const Arguments& arguments, const Environment& environment);

}  // namespace ohmwright::cli
