#include <algorithm>

#include <nlohmann/json.hpp>

#include <ohmwright/course/exercise.hpp>
#include <ohmwright/course/record.hpp>
#include <ohmwright/course/secret.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/record_values.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::course {

namespace {

constexpr std::string_view before_entry = "{\"entry\":";
constexpr std::string_view before_hash = ",\"hash\":\"";
constexpr std::string_view after_hash = "\"}";
constexpr std::size_t hash_digits = 64;
constexpr std::size_t shortest_line =
    before_entry.size() + before_hash.size() + hash_digits + after_hash.size() + std::string_view("{}").size();

struct Link {
  std::string_view entry;
  std::string_view hash;
};

std::optional<Link> link_in(std::string_view line) {
  if (line.size() < shortest_line || line.substr(0, before_entry.size()) != before_entry ||
      line.substr(line.size() - after_hash.size()) != after_hash)
    return std::nullopt;
  const std::size_t at = line.size() - after_hash.size() - hash_digits;
  if (line.substr(at - before_hash.size(), before_hash.size()) != before_hash) return std::nullopt;
  const std::size_t end = at - before_hash.size();
  return Link{line.substr(before_entry.size(), end - before_entry.size()), line.substr(at, hash_digits)};
}

std::string linked_hash(std::string_view previous, std::string_view entry) {
  return sha256_text(std::string(previous) + std::string(entry));
}

nlohmann::ordered_json json_of(const Entry& entry) {
  nlohmann::ordered_json json;
  const auto add = [&](const char* name, const std::string& text) {
    if (!text.empty()) json[name] = text;
  };
  json["do"] = entry.action;
  add("subject", entry.subject);
  add("set_up", entry.set_up);
  add("leads", entry.leads);
  add("range", entry.range);
  if (entry.live_agreed) json["live_agreed"] = true;
  add("shown", entry.shown);
  json["minutes"] = entry.minutes;
  if (!entry.hazards.empty()) json["hazards"] = entry.hazards;
  if (entry.action == "answer") {
    json["named"] = entry.named;
    json["because"] = entry.because;
    json["confidence"] = entry.confidence;
  }
  if (!entry.students.empty()) json["students"] = entry.students;
  add("file", entry.file);
  add("session", entry.session);
  add("begun", entry.begun);
  return json;
}

std::vector<std::string> texts_in(const ValueNode& object, std::string_view field) {
  std::vector<std::string> texts;
  for (const ValueNode& node : list_of(object, field))
    if (node.text() != nullptr) texts.push_back(printable(*node.text()));
  return texts;
}

std::string typed_text_of(const ValueNode& object, std::string_view field) {
  return printable_lines(text_of(object, field));
}

DocumentLimits record_limits() {
  DocumentLimits limits = course_limits();
  limits.control_characters = true;
  return limits;
}

void refuse_text_that_no_record_holds(const std::string& text) {
  const std::size_t most = record_limits().text_bytes;
  if (text.size() > most)
    throw InputError("a text of a record has at most " + std::to_string(most) + " bytes, this one has " +
                     std::to_string(text.size()) + "; say it in fewer words, or in two notes");
  if (printable_lines(text) != text)
    throw InputError("the text holds control characters: " + ohmwright::quoted(text) + "; leave them away");
}

Entry entry_of(const ValueNode& node) {
  Entry entry;
  entry.action = text_of(node, "do");
  entry.subject = typed_text_of(node, "subject");
  entry.set_up = text_of(node, "set_up");
  entry.leads = text_of(node, "leads");
  entry.range = text_of(node, "range");
  entry.live_agreed = flag_of(node, "live_agreed");
  entry.shown = text_of(node, "shown");
  entry.minutes = number_of(node, "minutes").value_or(0.0);
  entry.hazards = texts_in(node, "hazards");
  entry.named = texts_in(node, "named");
  constexpr double most_entries = 100'000.0;
  for (const ValueNode& number : list_of(node, "because"))
    if (number.number() != nullptr && *number.number() >= 0.0 && *number.number() < most_entries)
      entry.because.push_back(static_cast<std::size_t>(*number.number()));
  entry.confidence = number_of(node, "confidence").value_or(0.0);
  entry.students = texts_in(node, "students");
  entry.file = text_of(node, "file");
  entry.session = text_of(node, "session");
  entry.begun = text_of(node, "begun");
  return entry;
}

}  // namespace

void refuse_what_no_record_holds(const Entry& entry) {
  refuse_text_that_no_record_holds(entry.subject);
  for (const std::string& student : entry.students) refuse_text_that_no_record_holds(student);
}

std::string record_line(const Entry& entry, std::string_view text_so_far) {
  const std::string json = record_text(json_of(entry));
  return std::string(before_entry) + json + std::string(before_hash) + linked_hash(last_link(text_so_far), json) +
         std::string(after_hash) + "\n";
}

std::string check_word(std::string_view hash) {
  constexpr std::size_t half = 4;
  return std::string(hash.substr(0, half)) + "-" + std::string(hash.substr(std::min(half, hash.size()), half));
}

std::string last_link(std::string_view text) {
  while (!text.empty() && (text.back() == '\n' || text.back() == '\r')) text.remove_suffix(1);
  const std::size_t before = text.rfind('\n');
  if (before != std::string_view::npos) text.remove_prefix(before + 1);
  const std::optional<Link> link = link_in(text);
  return link ? std::string(link->hash) : std::string();
}

std::size_t whole_lines(std::string_view text) {
  const std::size_t last = text.rfind('\n');
  const std::size_t end = last == std::string_view::npos ? 0 : last + 1;
  const std::string_view tail = text.substr(end);
  const bool is_torn = tail.substr(0, before_entry.size()) == before_entry && !link_in(tail);
  return is_torn ? end : text.size();
}

Record read_record(std::string_view text, const std::string& file) {
  Record record;
  std::string previous;
  int number = 0;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    std::string_view line = text.substr(0, end);
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    ++number;
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    if (line.empty()) continue;
    const std::optional<Link> link = link_in(line);
    if (!link)
      throw DocumentError(file, {{"", number,
                                  "expected a line of a record, {\"entry\":…,\"hash\":…}; take the file as "
                                  "course practise or the page wrote it"}});
    record.entries.push_back(entry_of(parse_document(link->entry, file, record_limits()).root));
    if (linked_hash(previous, link->entry) != link->hash && !record.broken_at)
      record.broken_at = record.entries.size() - 1;
    record.hashes.emplace_back(link->hash);
    previous = link->hash;
  }
  if (record.entries.empty() || record.entries.front().action != "start")
    throw DocumentError(file, {{"", 1, "expected a record that begins with its start"}});
  return record;
}

}  // namespace ohmwright::course
