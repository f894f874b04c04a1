#include <ohmwright/quantity/error.hpp>

#include "reading/definition_reader.hpp"

namespace ohmwright::kind_file {

namespace {

/// A text as JSON writes it; what cannot be shown was refused before, so only these two need care.
std::string json_text(std::string_view text) {
  std::string json = "\"";
  for (const char letter : text) {
    if (letter == '"' || letter == '\\') json += '\\';
    json += letter;
  }
  return json + '"';
}

/// A figure of the ratings: a quantity, or an object that holds it beside its source.
std::string schema_of(const RatingRow& row) {
  const std::string described =
      "\"description\":" + json_text(std::string(row.title) + ", " + expectation_of(row.dimension)) + ",";
  const std::string text =
      R"({"type":"string","minLength":1,"maxLength":256,)" + described.substr(0, described.size() - 1) + "}";
  return "{" + described + R"("type":["string","object"],"minLength":1,"maxLength":256,"required":["value"],)" +
         R"("properties":{"value":)" + text +
         R"(,"source":{"type":"string","minLength":1,"maxLength":200}},"additionalProperties":false})";
}

std::optional<StandsIn> stands_in_of(const ValueNode& row) {
  const std::string_view name = text_in(row, "stands_in");
  if (name == "equal") return StandsIn::equal;
  if (name == "at-least") return StandsIn::at_least;
  if (name == "at-most") return StandsIn::at_most;
  return std::nullopt;
}

/// The schema of the kind's ratings, as a compiled kind would bring it along.
std::string schema_of_ratings(const Definition& definition) {
  std::string required;
  std::string properties;
  for (const RatingRow& row : definition.ratings) {
    properties += (properties.empty() ? "" : ",") + json_text(row.id) + ":" + schema_of(row);
    if (row.required) required += (required.empty() ? "" : ",") + json_text(row.id);
  }
  return R"({"$schema":"http://json-schema.org/draft-07/schema#","title":)" +
         json_text("Ratings: " + std::string(definition.descriptor.title)) + R"(,"type":"object","required":[)" +
         required + R"(],"properties":{)" + properties + R"(},"additionalProperties":false})";
}

}  // namespace

void read_ratings(const ValueNode& document, Definition& definition, Notes& notes) {
  check_ids_once(document, "ratings", "figure of the ratings", notes);
  for (const ValueNode& row : list_in(document, "ratings")) {
    definition.ratings.push_back({text_in(row, "id"), text_in(row, "title"), dimension_in(row, "dimension"),
                                  flag_in(row, "required", true), stands_in_of(row)});
  }
  definition.descriptor.ratings_schema = definition.keep(schema_of_ratings(definition));
}

}  // namespace ohmwright::kind_file
