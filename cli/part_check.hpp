#pragma once

#include <vector>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/plugin/loaded_kind.hpp>
#include <ohmwright/quantity/unit_preferences.hpp>
#include <ohmwright/report/verdict_report.hpp>

#include "environment.hpp"
#include "instruments.hpp"
#include "kind_files.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// A part with readings of it, judged. Throws Error (plugin) when the kind fails at it.
class PartCheck {
 public:
  /// `kind` must outlive the check.
  PartCheck(const LoadedKind& kind, RatedPart part, Instruments instruments, std::vector<Reading> readings,
            const UnitPreferences& units, double confidence);

  const LoadedKind& kind() const { return kind_; }
  const RatedPart& part() const { return part_; }
  const std::vector<Reading>& readings() const { return readings_; }
  const UnitPreferences& units() const { return units_; }
  const Evidence& evidence() const { return evidence_; }
  const Verdict& verdict() const { return verdict_; }

  /// With all that a page needs; refers to this check. Of `arguments` --every-rule and --cautions are looked at.
  VerdictReport report(const Arguments& arguments) const;

 private:
  std::vector<OtherInstrument> other_instruments() const;

  const LoadedKind& kind_;
  RatedPart part_;
  Instruments instruments_;
  std::vector<Reading> readings_;
  UnitPreferences units_;
  double confidence_;
  Evidence evidence_;
  Verdict verdict_;
};

/// Judges a part from the readings that `arguments` give: operands after the first, --readings, --series. Throws as
/// `gather_readings` does.
PartCheck checked_part(const LoadedKind& kind, RatedPart part, const Arguments& arguments,
                       const Environment& environment);

/// The same from readings at hand; the instruments are those of `arguments`.
PartCheck checked_part(const LoadedKind& kind, RatedPart part, std::vector<Reading> readings,
                       const UnitPreferences& units, const Arguments& arguments, const Environment& environment);

}  // namespace ohmwright::cli
