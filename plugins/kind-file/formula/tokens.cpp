#include "formula/tokens.hpp"

#include <charconv>
#include <cmath>

#include <ohmwright/quantity/unit_table.hpp>

namespace ohmwright::kind_file {

namespace {

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_of_name(char c) { return is_letter(c) || is_digit(c) || c == '_'; }
/// Letters, the percent sign, and everything beyond ASCII: Ω, µ, °.
bool is_of_unit(char c) { return is_letter(c) || c == '%' || static_cast<unsigned char>(c) >= 0x80; }

/// The unit that such a word names behind a number. "K" is a difference there: a point on the scale is written in degC.
std::optional<Unit> unit_called(std::string_view word) {
  constexpr std::string_view letters_of_ohms = "kKMGR";  // where a resistance is expected; here nothing is
  const bool is_letter_of_ohms = word.size() == 1 && letters_of_ohms.find(word) != std::string_view::npos;
  for (std::size_t i = 0; i < dimension_count; ++i) {
    if (is_letter_of_ohms && static_cast<Dimension>(i) == Dimension::resistance) continue;
    const std::optional<Unit> unit = Unit::named(word, static_cast<Dimension>(i));
    if (unit && !(unit->dimension() == Dimension::temperature && unit->zero_is_absolute())) return unit;
  }
  return std::nullopt;
}

}  // namespace

void Tokens::skip_blanks() {
  while (next_ < text_.size() && text_[next_] == ' ') ++next_;
}

void Tokens::advance() {
  skip_blanks();
  now_ = Token{};
  now_.at = next_;
  if (next_ == text_.size()) return;
  const char first = text_[next_];
  if (is_digit(first) || first == '.') return take_number();
  if (is_letter(first) || first == '\'') return take_name();
  constexpr std::string_view signs = "+-*/^(),";
  now_.sort = signs.find(first) == std::string_view::npos ? Token::Sort::wrong : Token::Sort::sign;
  now_.text = text_.substr(next_++, 1);
}

void Tokens::take_number() {
  double number = 0.0;
  const char* const begin = text_.data() + next_;
  const auto [end, error] = std::from_chars(begin, text_.data() + text_.size(), number);
  now_.sort = error == std::errc() && std::isfinite(number) ? Token::Sort::number : Token::Sort::wrong;
  const std::size_t length = end == begin ? 1 : static_cast<std::size_t>(end - begin);
  now_.text = text_.substr(next_, length);
  next_ += length;
  now_.value = number;
  if (now_.sort == Token::Sort::number) take_unit(number);
}

void Tokens::take_unit(double number) {
  const std::size_t before = next_;
  skip_blanks();
  const std::size_t begin = next_;
  while (next_ < text_.size() && is_of_unit(text_[next_])) ++next_;
  const std::string_view word = text_.substr(begin, next_ - begin);
  if (word.empty()) {
    next_ = before;
    return;
  }
  const std::optional<Unit> unit = unit_called(word);
  if (!unit) {
    while (next_ < text_.size() && is_of_name(text_[next_])) ++next_;
    now_.sort = Token::Sort::wrong;
    now_.at = begin;
    now_.unknown_unit = text_.substr(begin, next_ - begin);
    return;
  }
  now_.value = unit->to_si(number);
  now_.dimension = unit->dimension();
  if (!std::isfinite(now_.value)) now_.sort = Token::Sort::wrong;
}

void Tokens::take_name() {
  now_.sort = Token::Sort::name;
  if (text_[next_] != '\'') {
    const std::size_t begin = next_;
    while (next_ < text_.size() && is_of_name(text_[next_])) ++next_;
    now_.text = text_.substr(begin, next_ - begin);
    return;
  }
  const std::size_t close = text_.find('\'', next_ + 1);
  if (close == std::string_view::npos) {
    now_.sort = Token::Sort::wrong;
    now_.text = text_.substr(next_, 1);
    next_ = text_.size();
    return;
  }
  now_.text = text_.substr(next_ + 1, close - next_ - 1);
  next_ = close + 1;
}

}  // namespace ohmwright::kind_file
