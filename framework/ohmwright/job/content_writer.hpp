#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright::job {

/// Puts the content of an entry together, a JSON object in one line. What is empty is left out, so that a reader meets
/// nothing that nobody said.
class ContentWriter {
 public:
  /// Throws InputError for text that is no UTF-8, holds a NUL, or is longer than `longest_text`.
  ContentWriter& text(std::string_view name, std::string_view value);
  ContentWriter& texts(std::string_view name, std::span<const std::string> values);
  ContentWriter& number(std::string_view name, double value);
  ContentWriter& flag(std::string_view name, bool value);
  /// `json` is JSON already: a record, an appliance's file, the content of another writer.
  ContentWriter& json(std::string_view name, std::string_view json);
  ContentWriter& objects(std::string_view name, std::span<const ContentWriter> values);

  std::string content() const { return content_.empty() ? "{}" : content_ + "}"; }

  /// Bytes of a text that a person types. What is longer belongs into a file of its own.
  static constexpr std::size_t longest_text = 4000;

 private:
  void add(std::string_view name, const std::string& json);

  std::string content_;
};

}  // namespace ohmwright::job
