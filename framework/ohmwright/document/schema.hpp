#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/document/document.hpp>

namespace ohmwright {

/// A JSON Schema (draft 7), ready to check any number of values, from several threads too.
class Schema {
 public:
  /// `called` names it in errors; `whose` is the category of the error when it is no schema (a plugin's: plugin).
  /// Throws Error when `text` is no JSON, no schema, or of another draft, whose keywords would be silently ignored.
  Schema(std::string_view text, const std::string& called, ErrorCategory whose = ErrorCategory::internal);
  ~Schema();
  Schema(Schema&&) noexcept;
  Schema& operator=(Schema&&) noexcept;
  Schema(const Schema&) = delete;
  Schema& operator=(const Schema&) = delete;

  /// All that is wrong with `node`, each with its own pointer and line, in the file's order; empty when it is valid.
  std::vector<Problem> problems(const ValueNode& node) const;
  /// The same for a whole document, with what was found wrong when it was read.
  std::vector<Problem> problems(const Document& document) const;

 private:
  struct Content;
  std::unique_ptr<const Content> content_;
};

}  // namespace ohmwright
