#include <algorithm>
#include <cmath>
#include <cstddef>

#include <ohmwright/course/lab.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/schema.hpp>
#include <ohmwright/document/separated_text.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::course {

namespace {

/// Past this a voltage is not left to students [V]: alternating extra-low voltage that may be touched where it is dry
/// is 25 V (IEC 60364-4-41, 414, from memory).
constexpr double most_volts = 25.0;

/// A quantity of whatever dimension its unit says; `like` fixes it once the reference is read.
std::optional<StatedValue> quantity_in(const ValueNode& part, const char* field, std::optional<Dimension> like,
                                       std::vector<Problem>& problems) {
  const ValueNode* node = part.find(field);
  if (node == nullptr || node->text() == nullptr) return std::nullopt;
  std::string refusal;
  for (const Dimension dimension : {Dimension::resistance, Dimension::temperature, Dimension::capacitance,
                                    Dimension::voltage, Dimension::current, Dimension::inductance}) {
    if (like && dimension != *like) continue;
    try {
      return parse_stated_value(*node->text(), dimension);
    } catch (const InputError& error) {
      if (refusal.empty()) refusal = error.what();
    }
  }
  problems.push_back(node->problem(refusal));
  return std::nullopt;
}

/// `has_commas`: numbers of the table may have decimal commas, as none separates its cells.
std::optional<LabReading> reading_in(const SeparatedLine& line, const Lab& lab, bool has_commas,
                                     std::vector<Problem>& problems) {
  const auto refuse = [&](std::string text) {
    problems.push_back({"", line.line, std::move(text)});
    return std::nullopt;
  };
  if (line.cells.size() < 3) return refuse("expected student, tag, reading with its ±, and perhaps conditions");
  std::vector<std::string> tags;
  for (const LabPart& part : lab.parts) tags.push_back(part.tag);
  const auto tag = std::find_if(tags.begin(), tags.end(),
                                [&](const std::string& one) { return lower_case(one) == lower_case(line.cells[1]); });
  if (tag == tags.end())
    return refuse("there is no part tagged " + ohmwright::quoted(line.cells[1]) + did_you_mean(line.cells[1], tags) +
                  "; there are: " + listed(tags));
  const Dimension dimension = lab.parts[static_cast<std::size_t>(tag - tags.begin())].reference.value.dimension();
  try {
    const std::string& typed = line.cells[2];
    const StatedValue shown = parse_stated_value(has_commas ? with_decimal_points(typed) : typed, dimension);
    if (!shown.half_width || *shown.half_width <= 0.0)
      return refuse("the reading states no doubt: write it with its ±, \"32.1 ohm ± 0.6 ohm\"");
    return LabReading{line.cells[0], *tag, shown, line.cells.size() > 3 ? line.cells[3] : "", line.line};
  } catch (const InputError& error) {
    return refuse(error.what());
  }
}

}  // namespace

Lab read_lab(const Document& document) {
  std::vector<Problem> problems = lab_schema().problems(document);
  Lab lab;
  lab.title = text_of(document.root, "title");
  for (const ValueNode& node : list_of(document.root, "parts")) {
    const std::optional<StatedValue> reference = quantity_in(node, "reference", {}, problems);
    if (!reference) continue;
    if (!reference->half_width || *reference->half_width <= 0.0)
      problems.push_back(node.find("reference")->problem("expected a reference with its ±, \"32.05 ohm ± 0.05 ohm\""));
    const Dimension dimension = reference->value.dimension();
    if (dimension == Dimension::voltage && std::abs(reference->value.value_in_si()) > most_volts)
      problems.push_back(node.find("reference")
                             ->problem("a lab is of parts that are dead, or of cells and supplies up to 25 V; mains "
                                       "are no exercise for a class"));
    lab.parts.push_back({text_of(node, "tag"), text_of(node, "title"), *reference,
                         quantity_in(node, "lower", dimension, problems),
                         quantity_in(node, "upper", dimension, problems), text_of(node, "conditions")});
  }
  refuse_if_any(document.file, std::move(problems));
  return lab;
}

LabReadings read_lab_readings(std::string_view text, const std::string& file, const Lab& lab) {
  SeparatedText lines(text);
  constexpr std::size_t most_cells = 4;
  LabReadings read;
  const std::optional<SeparatedLine> names = lines.next(most_cells);
  const auto is_named = [&](std::size_t column, std::string_view name) {
    return lower_case(names->cells[column]) == name;
  };
  if (!names || names->cells.size() < 3 || !is_named(0, "student") || !is_named(1, "tag") || !is_named(2, "reading"))
    throw DocumentError(file, {{"", 1,
                                "expected a first line that names the columns: student,tag,reading,conditions, or with "
                                "\";\" between them"}});
  const bool has_commas = lines.separator() != ',';
  while (const std::optional<SeparatedLine> line = lines.next(most_cells))
    if (std::optional<LabReading> reading = reading_in(*line, lab, has_commas, read.refused))
      read.readings.push_back(*std::move(reading));
  if (read.readings.empty()) refuse_if_any(file, std::move(read.refused));
  return read;
}

namespace {

double difference_of(const LabReading& reading, const LabPart& part) {
  return std::abs(reading.shown.value.value_in_si() - part.reference.value.value_in_si());
}

/// Differences of the class from the reference of one part past this are slips: a thousand, or another part.
double farthest_of_class(const LabPart& part, std::span<const LabReading> readings) {
  constexpr double times_the_median = 10.0;  // common practice, no source
  std::vector<double> differences;
  for (const LabReading& reading : readings)
    if (reading.tag == part.tag) differences.push_back(difference_of(reading, part));
  if (differences.empty()) return 0.0;
  // Of two the smaller, so that one slip of two readings is one.
  const auto middle = differences.begin() + static_cast<std::ptrdiff_t>((differences.size() - 1) / 2);
  std::nth_element(differences.begin(), middle, differences.end());
  const double by_the_class = times_the_median * std::max(*middle, part.reference.half_width.value_or(0.0));
  // A median of fewer than three tells no slip from a wrong reading: then only what is half as large again is one.
  constexpr std::size_t few = 3;
  const double by_the_part = std::abs(part.reference.value.value_in_si()) / 2.0;
  return differences.size() < few ? std::max(by_the_class, by_the_part) : by_the_class;
}

}  // namespace

std::vector<LabMark> lab_marks(const Lab& lab, std::span<const LabReading> readings) {
  std::vector<LabMark> marks;
  for (const LabReading& reading : readings) {
    const auto part =
        std::find_if(lab.parts.begin(), lab.parts.end(), [&](const LabPart& one) { return one.tag == reading.tag; });
    if (part == lab.parts.end()) continue;
    const double difference = difference_of(reading, *part);
    const double of_reference = part->reference.half_width.value_or(0.0);
    const double stated = reading.shown.half_width.value_or(0.0);
    LabMark mark{&reading, &*part, difference / std::hypot(stated, of_reference), false, 0.0};
    mark.covers = mark.e_n <= 1.0;
    const double farthest = farthest_of_class(*part, readings);
    mark.is_a_slip = difference > farthest;
    double largest = of_reference;
    for (const LabReading& other : readings)
      if (other.tag == reading.tag && difference_of(other, *part) <= farthest)
        largest = std::max(largest, difference_of(other, *part));
    mark.doubt_ratio = stated / largest;
    marks.push_back(mark);
  }
  return marks;
}

bool is_idle(const LabMark& mark) {
  constexpr double idle_doubt = 5.0;  // times the largest difference of the class (common practice, no source)
  return mark.covers && mark.doubt_ratio > idle_doubt;
}

double share_of(const LabMark& mark) {
  constexpr double of_an_idle_doubt = 0.5;
  return !mark.covers ? 0.0 : is_idle(mark) ? of_an_idle_doubt : 1.0;
}

std::vector<LabTotal> lab_totals(std::span<const LabMark> marks) {
  std::vector<LabTotal> totals;
  for (const LabMark& mark : marks) {
    const auto same = [&](const LabTotal& one) { return one.student == mark.reading->student; };
    auto total = std::find_if(totals.begin(), totals.end(), same);
    if (total == totals.end()) total = totals.insert(totals.end(), {mark.reading->student, 0, 0.0});
    const auto before = static_cast<double>(total->readings++);
    total->share = (total->share * before + share_of(mark)) / (before + 1.0);
  }
  return totals;
}

std::vector<LabSpread> lab_spreads(const Lab& lab, std::span<const LabMark> marks) {
  std::vector<LabSpread> spreads;
  for (const LabPart& part : lab.parts) {
    std::vector<double> values;
    for (const LabMark& mark : marks)
      if (mark.part == &part && !mark.is_a_slip) values.push_back(mark.reading->shown.value.value_in_si());
    if (values.empty()) continue;
    LabSpread spread{&part, values.size(), 0.0, std::nullopt};
    const auto count = static_cast<double>(values.size());
    for (const double value : values) spread.mean += value / count;
    double squares = 0.0;
    for (const double value : values) squares += (value - spread.mean) * (value - spread.mean);
    if (values.size() > 1) spread.deviation = std::sqrt(squares / (count - 1.0));
    spreads.push_back(spread);
  }
  return spreads;
}

}  // namespace ohmwright::course
