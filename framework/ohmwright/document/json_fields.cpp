#include <nlohmann/json.hpp>

#include <ohmwright/document/json_fields.hpp>

namespace ohmwright::json_fields {

namespace {

std::vector<std::string> texts_of(const nlohmann::ordered_json& list) {
  std::vector<std::string> texts;
  if (!list.is_array()) return texts;
  for (const nlohmann::ordered_json& item : list)
    if (item.is_string()) texts.push_back(item.get<std::string>());
  return texts;
}

}  // namespace

std::string text_in(const nlohmann::ordered_json& object, const char* name) {
  const auto found = object.find(name);
  return found != object.end() && found->is_string() ? found->get<std::string>() : std::string();
}

bool flag_in(const nlohmann::ordered_json& object, const char* name) {
  const auto found = object.find(name);
  return found != object.end() && found->is_boolean() && found->get<bool>();
}

std::optional<double> number_in(const nlohmann::ordered_json& object, const char* name) {
  const auto found = object.find(name);
  return found != object.end() && found->is_number() ? std::optional<double>(found->get<double>()) : std::nullopt;
}

std::vector<std::string> texts_in(const nlohmann::ordered_json& object, const char* name) {
  const auto found = object.find(name);
  return found == object.end() ? std::vector<std::string>() : texts_of(*found);
}

std::vector<std::vector<std::string>> rows_in(const nlohmann::ordered_json& object, const char* name) {
  std::vector<std::vector<std::string>> rows;
  const auto found = object.find(name);
  if (found == object.end() || !found->is_array()) return rows;
  for (const nlohmann::ordered_json& row : *found) rows.push_back(texts_of(row));
  return rows;
}

std::string json_in(const nlohmann::ordered_json& object, const char* name) {
  const auto found = object.find(name);
  return found != object.end() && (found->is_object() || found->is_array()) ? found->dump() : std::string();
}

}  // namespace ohmwright::json_fields
