#include <algorithm>
#include <cstring>
#include <simdjson.h>

#include <ohmwright/batch/quick_line.hpp>

namespace ohmwright::batch {

namespace {

namespace ondemand = simdjson::ondemand;

constexpr std::size_t longest_name = 200;  // schemas/batch-line.schema.json, in characters: never more than bytes
constexpr std::size_t longest_value = 256;
constexpr std::size_t most_readings = 64;

/// Text of a field that must not have been given yet.
bool take_text(ondemand::value value, std::size_t longest, std::string_view& into) {
  std::string_view text;
  if (!into.empty() || value.get_string().get(text) != simdjson::SUCCESS) return false;
  if (text.empty() || text.size() > longest) return false;
  into = text;
  return true;
}

bool take_conditions(ondemand::value value, ReadingFields& reading) {
  ondemand::object object;
  if (!reading.conditions.empty() || value.get_object().get(object) != simdjson::SUCCESS) return false;
  for (auto field : object) {
    std::string_view name;
    std::string_view text;
    ondemand::value quantity;
    if (field.unescaped_key().get(name) != simdjson::SUCCESS || field.value().get(quantity) != simdjson::SUCCESS)
      return false;
    for (const auto& [given, other] : reading.conditions)
      if (given == name) return false;
    if (!take_text(quantity, longest_value, text)) return false;
    reading.conditions.emplace_back(name, text);
  }
  return !reading.conditions.empty();
}

bool take_reading_field(std::string_view name, ondemand::value value, ReadingFields& reading) {
  if (name == "value") return take_text(value, longest_value, reading.value);
  if (name == "conditions") return take_conditions(value, reading);
  if (name == "measurand") return take_text(value, longest_name, reading.measurand);
  if (name == "connection") return take_text(value, longest_name, reading.connection);
  if (name == "moisture") return take_text(value, longest_name, reading.moisture);
  if (name == "supply") return take_text(value, longest_name, reading.supply);
  return name == "meter" && take_text(value, longest_name, reading.meter);
}

bool take_reading(ondemand::value value, ReadingFields& reading) {
  ondemand::object object;
  if (value.get_object().get(object) != simdjson::SUCCESS) return false;
  for (auto field : object) {
    std::string_view name;
    ondemand::value inner;
    if (field.unescaped_key().get(name) != simdjson::SUCCESS || field.value().get(inner) != simdjson::SUCCESS)
      return false;
    if (!take_reading_field(name, inner, reading)) return false;
  }
  return !reading.value.empty();
}

bool take_readings(ondemand::value value, LineFields& fields) {
  ondemand::array array;
  if (fields.reading_count() > 0 || value.get_array().get(array) != simdjson::SUCCESS) return false;
  for (auto element : array) {
    ondemand::value entry;
    if (element.get(entry) != simdjson::SUCCESS || fields.reading_count() == most_readings) return false;
    if (!take_reading(entry, fields.add_reading())) return false;
  }
  return fields.reading_count() > 0;
}

/// Of a class that is shipped with a kind; what else stands there is the strict parser's to refuse.
bool is_class_name(std::string_view name) {
  return std::all_of(name.begin(), name.end(), [](char letter) {
    return (letter >= 'a' && letter <= 'z') || (letter >= '0' && letter <= '9') || letter == '_' || letter == '-';
  });
}

bool take_line_field(std::string_view name, ondemand::value value, LineFields& fields) {
  if (name == "id") return take_text(value, longest_name, fields.id);
  if (name == "lot") return take_text(value, longest_name, fields.lot);
  if (name == "kind") return take_text(value, longest_name, fields.kind);
  if (name == "ratings") return take_text(value, longest_name, fields.ratings) && is_class_name(fields.ratings);
  return name == "readings" && take_readings(value, fields);
}

/// Escapes and the one control character that JSON allows bare are the strict parser's.
bool holds_what_is_rare(std::string_view line) {
  return std::memchr(line.data(), '\\', line.size()) != nullptr ||
         std::memchr(line.data(), '\x7F', line.size()) != nullptr;
}

}  // namespace

bool is_utf8_text(std::string_view bytes) { return simdjson::validate_utf8(bytes.data(), bytes.size()); }

std::string json_in_one_line(std::string_view json) {
  std::string line(json.size(), ' ');
  std::size_t length = 0;
  if (simdjson::minify(json.data(), json.size(), line.data(), length) != simdjson::SUCCESS) return std::string(json);
  line.resize(length);
  return line;
}

struct QuickLineReader::Parser {
  ondemand::parser parser;
};

QuickLineReader::QuickLineReader() : parser_(std::make_unique<Parser>()) {}
QuickLineReader::~QuickLineReader() = default;

bool QuickLineReader::read(std::string_view line, LineFields& fields) {
  fields.clear();
  if (line.empty() || holds_what_is_rare(line)) return false;
  ondemand::document document;
  const simdjson::padded_string_view padded(line.data(), line.size(), line.size() + bytes_behind_line);
  if (parser_->parser.iterate(padded).get(document) != simdjson::SUCCESS) return false;
  ondemand::object object;
  if (document.get_object().get(object) != simdjson::SUCCESS) return false;
  for (auto field : object) {
    std::string_view name;
    ondemand::value value;
    if (field.unescaped_key().get(name) != simdjson::SUCCESS || field.value().get(value) != simdjson::SUCCESS)
      return false;
    if (!take_line_field(name, value, fields)) return false;
  }
  return document.current_location().error() == simdjson::OUT_OF_BOUNDS && fields.reading_count() > 0;
}

}  // namespace ohmwright::batch
