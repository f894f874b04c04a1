#include <algorithm>

#include <ohmwright/batch/strict_line.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/readings_document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::batch {

namespace {

/// Problems of a line in one line; their own line numbers count within the line and say nothing.
std::string in_one_line(const std::vector<Problem>& problems) {
  std::string text;
  for (const Problem& problem : problems) {
    if (!text.empty()) text += "; ";
    if (!problem.pointer.empty()) text += problem.pointer + ": ";
    text += problem.text;
  }
  return text;
}

/// A reading that its writer did not name is called by its place among the readings of the part.
void name_by_place(std::vector<Reading>& readings) {
  for (std::size_t i = 0; i < readings.size(); ++i)
    if (readings[i].label == "line 1") readings[i].label = "reading " + std::to_string(i + 1);
}

void read_fields(std::string_view text, const BatchSettings& settings, PartSource& parts, const MeterSet& meters,
                 StrictLine& line) {
  DocumentLimits limits;
  limits.bytes = longest_line;
  const Document document = parse_document(text, "line", limits);
  line.id = text_of(document.root, "id");
  line.lot = text_of(document.root, "lot");
  line.named_kind = line.kind = text_of(document.root, "kind");
  line.named_ratings = line.ratings = text_of(document.root, "ratings");
  std::vector<Problem> problems = batch_line_schema().problems(document.root);
  if (line.kind.empty()) line.kind = settings.kind;
  if (line.kind.empty() && problems.empty())
    throw InputError(R"(the line names no kind; write "kind": "…" in it, or name one for all with --kind)");
  if (line.kind.empty()) throw InputError(in_one_line(problems));
  const Descriptor& descriptor = parts.kind(line.kind);
  if (line.ratings.empty() && !settings.kind.empty() && &descriptor == &parts.kind(settings.kind))
    line.ratings = settings.ratings;
  line.readings = readings_of(list_of(document.root, "readings"), descriptor, &meters, "", problems);
  if (!problems.empty()) throw InputError(in_one_line(problems));
  name_by_place(line.readings);
}

}  // namespace

std::string long_line_text() { return "is longer than a line may be, " + std::to_string(longest_line) + " bytes"; }

void read_strict_line(std::string_view text, const BatchSettings& settings, PartSource& parts, const MeterSet& meters,
                      StrictLine& line) {
  line = {};
  try {
    read_fields(text, settings, parts, meters, line);
  } catch (const DocumentError& error) {
    throw InputError(in_one_line(error.problems()));
  }
}

}  // namespace ohmwright::batch
