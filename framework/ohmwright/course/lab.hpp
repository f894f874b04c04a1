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

/// A reading against the reference.
struct LabMark {
  const LabReading* reading = nullptr;
  const LabPart* part = nullptr;
  /// |x − X| / √(U(x)² + U(X)²), the E_n number of ISO 13528 and ISO/IEC 17043 with the stated ± as expanded
  /// uncertainties (formula from memory): up to 1 the doubt stated covers the difference.
  double e_n = 0.0;
  bool covers = false;
  /// Stated doubt over that of the reference and the largest difference of the class: a doubt that covers all says
  /// little.
  double doubt_ratio = 0.0;
};

/// Reads the instructor's file (schemas/lab.schema.json). Throws DocumentError with all that is wrong.
Lab read_lab(const Document& document);

/// Reads what students handed in: comma-separated, columns student, tag, reading (with ±), conditions. Throws
/// DocumentError with all that is wrong, by line.
std::vector<LabReading> read_lab_readings(std::string_view text, const std::string& file, const Lab& lab);

/// Marks, in the readings' order. Both must outlive the result.
std::vector<LabMark> lab_marks(const Lab& lab, std::span<const LabReading> readings);

std::string lab_page(const Lab& lab, std::span<const LabMark> marks, const Sentences& say, const PageStyle& style);
std::string lab_csv(std::span<const LabMark> marks);
/// With the class's readings of each part drawn against its reference and limits.
std::string lab_html(const Lab& lab, std::span<const LabMark> marks, const Sentences& say, std::string_view made_with);

}  // namespace ohmwright::course
