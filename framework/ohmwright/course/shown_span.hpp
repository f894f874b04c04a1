#pragma once

#include <optional>
#include <string>

#include <ohmwright/locate/prober.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

/// What an ohmmeter may show of a part: ohms from one end to another, OL, or either.
struct ShownSpan {
  /// From … to [ohm]; nothing where it never conducts.
  struct Ohms {
    double low = 0.0;
    double high = 0.0;
    double middle = 0.0;  ///< of the tolerance
  };
  std::optional<Ohms> ohms;
  bool may_be_open = false;
};

/// What the engine predicts of the candidate there, all its ways taken together; ways below a share of 5 % are left
/// out.
ShownSpan shown_span(locate::Prober& prober, const locate::Candidate& candidate,
                     const locate::Measurement& measurement);

/// "8.0 Ω to 1.0 MΩ", "32 Ω" where its ends lie near each other, "OL", or "32 Ω / OL".
std::string span_text(const ShownSpan& span, const Sentences& say);

}  // namespace ohmwright::course
