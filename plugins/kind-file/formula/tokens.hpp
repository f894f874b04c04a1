#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

#include <ohmwright/quantity/dimension.hpp>

namespace ohmwright::kind_file {

/// A piece of a formula's text.
struct Token {
  enum class Sort : std::uint8_t { number, name, sign, end, wrong };
  Sort sort = Sort::end;
  std::size_t at = 0;     ///< byte in the text where it begins
  std::string_view text;  ///< of a name without its quotes, of a number without its unit
  double value = 0.0;     ///< of a number [SI]
  Dimension dimension = Dimension::ratio;
  std::string_view unknown_unit;  ///< of a number that is wrong: what stands behind it and is no unit
};

/// Takes a formula apart, one token after the other.
class Tokens {
 public:
  explicit Tokens(std::string_view text) : text_(text) { advance(); }

  const Token& now() const { return now_; }
  bool is_sign(char sign) const { return now_.sort == Token::Sort::sign && now_.text.front() == sign; }
  void advance();

 private:
  void skip_blanks();
  void take_number();
  void take_unit(double number);
  void take_name();

  std::string_view text_;
  std::size_t next_ = 0;
  Token now_;
};

}  // namespace ohmwright::kind_file
