#pragma once

#include <memory>
#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

namespace ohmwright {

/// What the schema library reports: the steps from the value checked to the place, and its own words.
struct Violation {
  std::vector<std::string> steps;  ///< field names and list indices
  std::string description;
};

/// A JSON Schema (draft 7) made ready by the schema library, whose heavy headers stay in one source file.
class SchemaEngine {
 public:
  /// Throws std::exception for a schema that the library cannot read.
  explicit SchemaEngine(const nlohmann::json& schema);
  ~SchemaEngine();
  SchemaEngine(SchemaEngine&&) noexcept;
  SchemaEngine& operator=(SchemaEngine&&) noexcept;
  SchemaEngine(const SchemaEngine&) = delete;
  SchemaEngine& operator=(const SchemaEngine&) = delete;

  /// Everything that is wrong; a fault deep inside is also reported by each of the values around it.
  std::vector<Violation> check(const nlohmann::json& value) const;

 private:
  struct Compiled;
  std::unique_ptr<const Compiled> compiled_;
};

}  // namespace ohmwright
