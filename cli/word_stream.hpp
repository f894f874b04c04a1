#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

#include <ohmwright/quantity/dimension.hpp>

namespace ohmwright::cli {

/// Words of a command line one after the other, with what the shell took apart put together again.
class WordStream {
 public:
  explicit WordStream(std::span<const std::string> words) : words_(words) {}

  bool at_end() const { return next_ == words_.size(); }
  /// The next word; there is one.
  const std::string& front() const { return words_[next_]; }
  const std::string& take() { return words_[next_++]; }

  /// The value that begins with `first`, a word that was taken: words that are nothing but its unit or its uncertainty
  /// belong to it. `11.0 kohm`, `23 deg C ± 1 K`, `OL Mohm`.
  std::string value(std::string first, Dimension dimension);

  /// The value whose first word is `rest`, what stood behind "@" in a word that was taken, or the next one where
  /// nothing did: `@23C`, `@ 23 C`. Throws InputError when there is neither.
  std::string value_after_at(const std::string& rest, Dimension dimension);

 private:
  void join_unit(std::string& value, Dimension dimension);

  std::span<const std::string> words_;
  std::size_t next_ = 0;
};

/// Whether a word is an option: two hyphens and a name. A negative number is none.
bool is_option(std::string_view word);

}  // namespace ohmwright::cli
