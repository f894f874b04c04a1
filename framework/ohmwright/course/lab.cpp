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

/// The part of that tag, however large or small it is written; null where there is none.
const LabPart* part_tagged(const Lab& lab, std::string_view tag) {
  const auto found = std::find_if(lab.parts.begin(), lab.parts.end(),
                                  [&](const LabPart& part) { return lower_case(part.tag) == lower_case(tag); });
  return found == lab.parts.end() ? nullptr : &*found;
}

/// `has_commas`: numbers of the table may have decimal commas, as none separates its cells.
std::optional<LabReading> reading_in(const SeparatedLine& line, const Lab& lab, bool has_commas,
                                     std::vector<Problem>& problems) {
  const auto refuse = [&](std::string text) {
    problems.push_back({"", line.line, std::move(text)});
    return std::nullopt;
  };
  if (line.cells.size() < 3) return refuse("expected student, tag, reading with its ±, and perhaps conditions");
  const LabPart* part = part_tagged(lab, line.cells[1]);
  if (part == nullptr) {
    std::vector<std::string> tags;
    for (const LabPart& one : lab.parts) tags.push_back(one.tag);
    return refuse("there is no part tagged " + ohmwright::quoted(line.cells[1]) + did_you_mean(line.cells[1], tags) +
                  "; there are: " + listed(tags));
  }
  const Dimension dimension = part->reference.value.dimension();
  try {
    const std::string& typed = line.cells[2];
    const StatedValue shown = parse_stated_value(has_commas ? with_decimal_points(typed) : typed, dimension);
    if (!shown.half_width || *shown.half_width <= 0.0)
      return refuse("the reading states no doubt: write it with its ±, \"32.1 ohm ± 0.6 ohm\"");
    return LabReading{line.cells[0], part->tag, shown, line.cells.size() > 3 ? line.cells[3] : "", line.line};
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
    LabPart part{text_of(node, "tag"),
                 text_of(node, "title"),
                 *reference,
                 quantity_in(node, "lower", dimension, problems),
                 quantity_in(node, "upper", dimension, problems),
                 text_of(node, "conditions")};
    if (part_tagged(lab, part.tag) != nullptr)
      problems.push_back(
          node.find("tag")->problem("another part has this tag, written large or small; expected a tag "
                                    "of its own for each"));
    if (part.lower && part.upper && part.upper->value.value_in_si() < part.lower->value.value_in_si())
      problems.push_back(node.find("upper")->problem("expected an upper limit that is not below the lower one"));
    lab.parts.push_back(std::move(part));
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

}  // namespace ohmwright::course
