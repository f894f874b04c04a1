#include <nlohmann/json.hpp>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/job/entry_lines.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::job {

namespace {

using Json = nlohmann::ordered_json;

/// What a book may hold of one text, and nothing that a hostile file could make of it.
DocumentLimits line_limits() {
  DocumentLimits limits;
  // Of any content of `longest_content`, and of the longer ones that books of the first versions took.
  limits.bytes = std::size_t{16} << 20U;
  limits.values = 1'000'000;
  limits.depth += 8;  // a file as deep as any may stand in a content
  limits.text_bytes = ContentWriter::longest_text;
  limits.control_characters = true;  // as in the note that somebody pasted
  return limits;
}

/// Clocks of two machines differ, by their time zones at worst.
constexpr std::int64_t most_ahead_ms = 86'400'000;

void check_times(const ValueNode& root, std::int64_t now, std::vector<Problem>& problems) {
  for (const char* field : {"recorded", "happened"}) {
    const ValueNode* node = root.find(field);
    if (node == nullptr || node->text() == nullptr) continue;
    const std::optional<std::int64_t> at = milliseconds_of(*node->text());
    if (!at)
      problems.push_back(node->problem("there is no such time"));
    else if (*at > now + most_ahead_ms)
      problems.push_back(node->problem(
          "it is more than a day ahead of this machine's clock; set the clock that is wrong, and leave the line out"));
  }
}

/// Adds the entry of a line, or what is wrong with it.
void read_line(std::string_view line, int number, const std::string& file, std::int64_t now,
               std::vector<MovedEntry>& entries, std::vector<Problem>& problems) {
  try {
    const Document document = parse_document(line, file, line_limits());
    const ValueNode& root = document.root;
    std::vector<Problem> wrong = job_entry_schema().problems(root);
    if (wrong.empty()) check_times(root, now, wrong);
    refuse_if_any(file, std::move(wrong));
    entries.push_back({text_of(root, "job"),
                       {text_of(root, "id"), text_of(root, "form"), text_of(root, "recorded"),
                        text_of(root, "happened"), text_of(root, "who"), text_of(root, "tool"),
                        text_of(root, "corrects"), Json::parse(line)["content"].dump()}});
  } catch (const DocumentError& error) {
    for (Problem problem : error.problems()) {
      problem.line = number;
      problems.push_back(std::move(problem));
    }
  }
}

}  // namespace

std::string entry_line(const MovedEntry& moved) {
  const Entry& entry = moved.entry;
  Json line{{"job", moved.job}, {"id", entry.id}, {"form", entry.form}, {"recorded", entry.recorded}};
  if (!entry.happened.empty()) line["happened"] = entry.happened;
  line["who"] = entry.who;
  line["tool"] = entry.tool;
  if (!entry.corrects.empty()) line["corrects"] = entry.corrects;
  line["content"] = Json::parse(entry.content);
  return line.dump() + '\n';
}

std::vector<MovedEntry> entries_of_lines(std::string_view lines, const std::string& file, std::int64_t now) {
  std::vector<MovedEntry> entries;
  std::vector<Problem> problems;
  constexpr std::size_t most_problems = 20;
  int number = 0;
  while (!lines.empty() && problems.size() < most_problems) {
    const std::size_t end = std::min(lines.find('\n'), lines.size());
    const std::string_view line = lines.substr(0, end);
    ++number;
    if (line.find_first_not_of(" \t\r") != std::string_view::npos)
      read_line(line, number, file, now, entries, problems);
    lines.remove_prefix(std::min(end + 1, lines.size()));
  }
  refuse_if_any(file, std::move(problems));
  return entries;
}

}  // namespace ohmwright::job
