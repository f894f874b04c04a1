// The only source file that includes the schema library. Without this definition a wrong schema would end the process.
#ifndef VALIJSON_USE_EXCEPTIONS
#define VALIJSON_USE_EXCEPTIONS 1
#endif

#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

#include <ohmwright/document/schema_engine.hpp>

namespace ohmwright {

struct SchemaEngine::Compiled {
  valijson::Schema schema;
};

SchemaEngine::SchemaEngine(const nlohmann::json& schema) {
  auto compiled = std::make_unique<Compiled>();
  valijson::SchemaParser parser(valijson::SchemaParser::kDraft7);
  parser.populateSchema(valijson::adapters::NlohmannJsonAdapter(schema), compiled->schema);
  compiled_ = std::move(compiled);
}

SchemaEngine::~SchemaEngine() = default;
SchemaEngine::SchemaEngine(SchemaEngine&&) noexcept = default;
SchemaEngine& SchemaEngine::operator=(SchemaEngine&&) noexcept = default;

std::vector<Violation> SchemaEngine::check(const nlohmann::json& value) const {
  valijson::Validator validator(valijson::Validator::kStrongTypes);
  valijson::ValidationResults results;
  const valijson::adapters::NlohmannJsonAdapter target(value);
  std::vector<Violation> violations;
  if (validator.validate(compiled_->schema, target, &results)) return violations;
  valijson::ValidationResults::Error error;
  while (results.popError(error)) {
    Violation violation;
    violation.description = error.description;
    // The list begins with "<root>"; the rest are "[name]" or "[index]".
    for (std::size_t i = 1; i < error.context.size(); ++i)
      violation.steps.push_back(error.context[i].substr(1, error.context[i].size() - 2));
    violations.push_back(std::move(violation));
  }
  if (violations.empty()) violations.push_back({{}, "not accepted"});
  return violations;
}

}  // namespace ohmwright
