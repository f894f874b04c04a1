#pragma once

#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

namespace ohmwright::job {

/// Refuses a text that no book can keep: no UTF-8, a NUL in it, or longer than `longest` bytes. Throws InputError,
/// which calls it `what`.
void refuse_what_no_book_keeps(std::string_view text, const std::string& what, std::size_t longest);

/// Puts the content of an entry together, a JSON object in one line. What is empty is left out, so that a reader meets
/// nothing that nobody said.
class ContentWriter {
 public:
  ContentWriter();
  ~ContentWriter();
  ContentWriter(const ContentWriter& other);
  ContentWriter(ContentWriter&& other) noexcept;
  ContentWriter& operator=(const ContentWriter& other);
  ContentWriter& operator=(ContentWriter&& other) noexcept;

  /// Throws InputError for text that is no UTF-8, holds a NUL, or is longer than `longest_text`.
  ContentWriter& text(std::string_view name, std::string_view value);
  ContentWriter& texts(std::string_view name, std::span<const std::string> values);
  /// A table; rows without a cell are left out.
  ContentWriter& rows(std::string_view name, std::span<const std::vector<std::string>> rows);
  ContentWriter& number(std::string_view name, double value);
  ContentWriter& flag(std::string_view name, bool value);
  /// `json` is JSON already: a record, an appliance's file, the content of another writer.
  ContentWriter& json(std::string_view name, std::string_view json);
  ContentWriter& objects(std::string_view name, std::span<const ContentWriter> values);

  std::string content() const;

  /// Bytes of a text that a person types. What is longer belongs into a file of its own.
  static constexpr std::size_t longest_text = 4000;

 private:
  std::unique_ptr<nlohmann::ordered_json> object_;
};

}  // namespace ohmwright::job
