#pragma once

#include <optional>
#include <string>

#include <ohmwright/component/meter.hpp>
#include <ohmwright/course/bench.hpp>
#include <ohmwright/locate/faults.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

/// What an ohmmeter may show of a part: ohms from one end to another, OL, or either.
struct ShownSpan {
  /// From … to [ohm]; nothing where it never conducts.
  struct Ohms {
    double low = 0.0;
    double high = 0.0;
  };
  std::optional<Ohms> ohms;
  bool may_be_open = false;
};

/// What an ohmmeter may show there of the candidate (one of `faults`, made of the bench's appliance): from end to end
/// of all that an exercise draws of it, tolerances and temperatures at their worst at once. Of contacts the states of
/// less than 5 % of such parts are left out. A network of resistances reads more with every one of them that has more,
/// so that its ends are found at theirs.
ShownSpan shown_span(const Bench& bench, const Meter& meter, const locate::FaultList& faults,
                     const locate::Candidate& candidate, const locate::Measurement& measurement);

/// "8.0 Ω to 1.0 MΩ", "32 Ω" where its ends show alike, "OL", or "32 Ω / OL": so many digits as tell its ends apart and
/// the meter shows.
std::string span_text(const ShownSpan& span, const Meter& meter, const Sentences& say);

}  // namespace ohmwright::course
