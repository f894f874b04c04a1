#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/document/document.hpp>
#include <ohmwright/quantity/stated_value.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

/// A tagged part on the instructor's table, de-energised.
struct LabPart {
  std::string tag;
  std::string title;
  StatedValue reference;             ///< with its ±, as the instructor measured it
  std::optional<StatedValue> lower;  ///< limits of a good part, where there are
  std::optional<StatedValue> upper;
  std::string conditions;  ///< "23 degC, leads off"
};

struct Lab {
  std::string title;
  std::vector<LabPart> parts;
};

/// A student's reading of a tagged part.
struct LabReading {
  std::string student;
  std::string tag;
  StatedValue shown;  ///< with the doubt that the student states
  std::string conditions;
  int line = 0;
};

/// What students handed in: readings, and the lines that are none, each with what is wrong.
struct LabReadings {
  std::vector<LabReading> readings;
  std::vector<Problem> refused;
};

/// A reading against the reference.
struct LabMark {
  const LabReading* reading = nullptr;
  const LabPart* part = nullptr;
  /// |x − X| / √(U(x)² + U(X)²), the E_n number of ISO 13528 and ISO/IEC 17043 (formula from memory): up to 1 the doubt
  /// stated covers the difference. The ± of both are taken as expanded uncertainties, which in 95 of 100 cases hold the
  /// true value; elsewhere a ± is the half-width of a rectangle, which always does.
  double e_n = 0.0;
  bool covers = false;
  /// Stated doubt over that of the reference and the largest difference of the class, slips left out: a doubt that
  /// covers all says little.
  double doubt_ratio = 0.0;
  /// It lies ten times as far from the reference as the class's median: a slip, which counts in no spread.
  bool is_a_slip = false;
};

/// Reads the instructor's file (schemas/lab.schema.json). Throws DocumentError with all that is wrong.
Lab read_lab(const Document& document);

/// Reads what students handed in: columns student, tag, reading (with ±), conditions, between commas, or between ";" or
/// tabs, where numbers may have decimal commas. Letter case of columns and tags does not count. A line that is refused
/// holds nobody else up. Throws DocumentError for another first line, and where no line is left.
LabReadings read_lab_readings(std::string_view text, const std::string& file, const Lab& lab);

/// Marks, in the readings' order. Both must outlive the result.
std::vector<LabMark> lab_marks(const Lab& lab, std::span<const LabReading> readings);

/// What a reading earns [0…1]: 1 where the doubt covers, a half where it covers by being idle, else 0 (common practice,
/// no source).
double share_of(const LabMark& mark);
/// Whether the doubt is so wide that it would have covered any reading of the class.
bool is_idle(const LabMark& mark);

/// A student's total: the mean of their readings' shares.
struct LabTotal {
  std::string student;
  std::size_t readings = 0;
  double share = 0.0;
};
/// Totals in the order in which students come up.
std::vector<LabTotal> lab_totals(std::span<const LabMark> marks);

/// How the class's readings of one part lie, slips left out: mean, and standard deviation (n − 1) of at least two [SI].
struct LabSpread {
  const LabPart* part = nullptr;
  std::size_t readings = 0;
  double mean = 0.0;
  std::optional<double> deviation;
};
/// Of each part that was read, in the lab's order.
std::vector<LabSpread> lab_spreads(const Lab& lab, std::span<const LabMark> marks);

/// The lab for the terminal: each reading against its reference, totals, spread, the lines that were refused.
std::string lab_page(const Lab& lab, std::span<const LabMark> marks, std::span<const Problem> refused,
                     const Sentences& say, const PageStyle& style);
/// Each reading for a spreadsheet [SI units], and a row with what is wrong for each line that was refused.
std::string lab_csv(std::span<const LabMark> marks, std::span<const Problem> refused);
/// `lab_page` as HTML, with the class's readings of each part drawn against its reference and limits.
std::string lab_html(const Lab& lab, std::span<const LabMark> marks, std::span<const Problem> refused,
                     const Sentences& say, std::string_view made_with);

}  // namespace ohmwright::course
