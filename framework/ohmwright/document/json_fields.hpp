#pragma once

#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

/// Members of an object that was read, each with what stands for one that is not there or of another type: for records
/// that a later version may have written.
namespace ohmwright::json_fields {

/// Empty for none.
std::string text_in(const nlohmann::ordered_json& object, const char* name);
/// False for none.
bool flag_in(const nlohmann::ordered_json& object, const char* name);
std::optional<double> number_in(const nlohmann::ordered_json& object, const char* name);
/// The texts of a list; what is none of them is passed over.
std::vector<std::string> texts_in(const nlohmann::ordered_json& object, const char* name);
/// A table of texts.
std::vector<std::vector<std::string>> rows_in(const nlohmann::ordered_json& object, const char* name);
/// An object or a list, as text.
std::string json_in(const nlohmann::ordered_json& object, const char* name);

}  // namespace ohmwright::json_fields
