#include <algorithm>
#include <array>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/stated_value.hpp>
#include <ohmwright/quantity/stated_value_reader.hpp>
#include <ohmwright/quantity/unit_table.hpp>
#include <ohmwright/quantity/utf8.hpp>

namespace ohmwright {

namespace {

using namespace std::string_view_literals;

struct CharacterRange {
  char32_t first;
  char32_t last;
};

// Digits, signs and points of other scripts and styles, often pasted from documents. U+2212 is the true minus sign.
constexpr std::array<CharacterRange, 17> look_alikes{{{0xB2, 0xB3},
                                                      {0xB7, 0xB7},
                                                      {0xB9, 0xB9},
                                                      {0x660, 0x66C},
                                                      {0x6F0, 0x6F9},
                                                      {0x966, 0x96F},
                                                      {0x2010, 0x2015},
                                                      {0x2024, 0x2024},
                                                      {0x2043, 0x2043},
                                                      {0x2070, 0x207B},
                                                      {0x2080, 0x208B},
                                                      {0xFE50, 0xFE52},
                                                      {0xFE63, 0xFE63},
                                                      {0xFF0B, 0xFF0E},
                                                      {0xFF10, 0xFF19},
                                                      {0x2D7, 0x2D7},
                                                      {0x1D7CE, 0x1D7FF}}};

struct LetterCode {
  std::string_view letter;
  Dimension dimension;
  int exponent;
};

// IEC 60062: the letter stands for the decimal point.
constexpr std::array<LetterCode, 11> letter_codes{{{"R", Dimension::resistance, 0},
                                                   {"k", Dimension::resistance, 3},
                                                   {"K", Dimension::resistance, 3},
                                                   {"M", Dimension::resistance, 6},
                                                   {"G", Dimension::resistance, 9},
                                                   {"p", Dimension::capacitance, -12},
                                                   {"n", Dimension::capacitance, -9},
                                                   {"u", Dimension::capacitance, -6},
                                                   {"\u00B5", Dimension::capacitance, -6},
                                                   {"\u03BC", Dimension::capacitance, -6},
                                                   {"m", Dimension::capacitance, -3}}};

constexpr std::array<std::string_view, 3> uncertainty_marks{"\u00B1", "+/-", "+-"};
// Space, tab, and the spaces that typesetters put between number and unit.
constexpr std::array<std::string_view, 5> spaces{" ", "\t", "\u00A0", "\u2009", "\u202F"};
constexpr std::array<std::string_view, 3> digit_separators{"'", "_", "\u2019"};

/// Bytes of the first of `words` that `text` starts with; 0 if none.
template <std::size_t count>
std::size_t starts_with_any(std::string_view text, const std::array<std::string_view, count>& words) {
  for (const std::string_view word : words) {
    if (text.starts_with(word)) return word.size();
  }
  return 0;
}

bool starts_with_digit(std::string_view text) { return !text.empty() && text.front() >= '0' && text.front() <= '9'; }

bool starts_with_word(std::string_view text, std::string_view lower_case_word) {
  return lower_case(text.substr(0, lower_case_word.size())) == lower_case_word;
}

std::string code_point_name(char32_t value) {
  std::string name;
  for (; value != 0; value /= 16) name.insert(name.begin(), "0123456789ABCDEF"[value % 16]);
  return "U+" + std::string(name.size() < 4 ? 4 - name.size() : 0, '0') + name;
}

class Reader {
 public:
  Reader(std::string_view text, Dimension expected, std::string_view expectation)
      : text_(text), rest_(text), expected_(expected), expectation_(expectation) {}

  TypedValue read() {
    skip_spaces();
    if (rest_.empty()) fail("expected " + std::string(expectation_) + ", got nothing");
    const bool bracket = take("("sv);
    if (bracket) skip_spaces();
    TypedValue typed;
    typed.value = read_number_with_unit();
    if (const std::size_t bytes = uncertainty_mark_in(rest_); bytes > 0) {
      rest_.remove_prefix(bytes);
      skip_spaces();
      if (rest_.empty()) fail(quoted(text_) + R"( states no uncertainty after "+-", such as "+- 5 %")");
      typed.uncertainty = read_number_with_unit();
    }
    if (bracket) close_bracket(typed);
    if (!rest_.empty()) {
      fail("expected " + std::string(expectation_) + ", got " + quoted(text_) + ": cannot read the end, " +
           quoted(rest_));
    }
    return typed;
  }

 private:
  [[noreturn]] static void fail(const std::string& message) { throw InputError(message); }

  bool take(std::string_view word) {
    if (!rest_.starts_with(word)) return false;
    rest_.remove_prefix(word.size());
    return true;
  }

  void skip_spaces() {
    for (std::size_t bytes = starts_with_any(rest_, spaces); bytes > 0; bytes = starts_with_any(rest_, spaces)) {
      rest_.remove_prefix(bytes);
    }
  }

  TypedNumber read_number_with_unit() {
    refuse_not_finite();
    refuse_look_alike();
    TypedNumber typed;
    if (!read_leading_letter_code(typed)) {
      if (rest_.starts_with(',')) refuse_comma();
      const std::optional<ScannedDecimal> scanned = scan_decimal(rest_);
      if (!scanned) refuse_text_without_number();
      typed.number = scanned->number;
      rest_.remove_prefix(scanned->bytes);
      if (scanned->whole) read_letter_code(typed);
    }
    refuse_what_breaks_a_number();
    skip_spaces();
    if (starts_with_digit(rest_)) refuse_separator();
    typed.unit_text = read_unit_text();
    return typed;
  }

  /// A unit, with the blanks behind it: one word, or two where both together are a unit ("deg C", "k ohm").
  std::string read_unit_text() {
    std::string first(read_unit_word());
    skip_spaces();
    const std::string_view after_first = rest_;
    std::string both = first + ' ' + std::string(read_unit_word());
    if (!first.empty() && both.size() > first.size() + 1 && Unit::named(both, expected_)) {
      skip_spaces();
      return both;
    }
    rest_ = after_first;
    return first;
  }

  std::string_view read_unit_word() {
    std::size_t end = 0;
    while (end < rest_.size()) {
      const std::string_view ahead = rest_.substr(end);
      const bool ends = ahead.front() == '+' || ahead.front() == ')' || ahead.front() == '(' ||
                        starts_with_any(ahead, spaces) > 0 || uncertainty_mark_in(ahead) > 0;
      if (ends) break;
      end += first_code_point(ahead).bytes;
    }
    const std::string_view unit = rest_.substr(0, end);
    rest_.remove_prefix(end);
    return unit;
  }

  /// "R47" is 0.47 ohm, "p33" is 0.33 pF.
  bool read_leading_letter_code(TypedNumber& typed) {
    read_letter_code(typed);
    return typed.letter_code_exponent.has_value();
  }

  void read_letter_code(TypedNumber& typed) {
    for (const LetterCode& code : letter_codes) {
      const bool here = code.dimension == expected_ && rest_.starts_with(code.letter);
      if (!here || !starts_with_digit(rest_.substr(code.letter.size()))) continue;
      rest_.remove_prefix(code.letter.size());
      while (starts_with_digit(rest_)) {
        typed.number.digits += rest_.front();
        --typed.number.exponent;
        rest_.remove_prefix(1);
      }
      typed.letter_code_exponent = code.exponent;
      return;
    }
  }

  void close_bracket(TypedValue& typed) {
    if (!take(")"sv)) {
      fail("expected " + std::string(expectation_) + ", got " + quoted(text_) + ": the closing bracket is missing");
    }
    const bool unit_inside = !typed.value.unit_text.empty() || !typed.uncertainty ||
                             !typed.uncertainty->unit_text.empty() || typed.value.letter_code_exponent ||
                             typed.uncertainty->letter_code_exponent;
    if (unit_inside) fail(quoted(text_) + R"(: brackets are for "(11.0 +- 0.1) kohm", the unit behind them)");
    skip_spaces();
    typed.uncertainty->unit_text = read_unit_text();
  }

  void refuse_not_finite() const {
    const std::string_view word = rest_.substr(rest_.starts_with('-') || rest_.starts_with('+') ? 1 : 0);
    if (starts_with_word(word, "nan") || starts_with_word(word, "inf")) {
      fail("expected " + std::string(expectation_) + ", got " + quoted(text_) + ", which is no finite number");
    }
  }

  void refuse_look_alike() const {
    if (rest_.empty()) return;
    const char32_t value = first_code_point(rest_).value;
    const bool found = std::any_of(look_alikes.begin(), look_alikes.end(), [value](CharacterRange range) {
      return value >= range.first && value <= range.last;
    });
    if (found) {
      fail(quoted(text_) + " has " + code_point_name(value) +
           R"(, which only looks like part of a number: write 0-9, "-" and ".")");
    }
  }

  void refuse_what_breaks_a_number() const {
    if (rest_.starts_with(',')) refuse_comma();
    if (rest_.starts_with('.')) fail(quoted(text_) + R"( has more than one decimal point: write "1000.5")");
    const std::size_t bytes = starts_with_any(rest_, digit_separators);
    if (bytes > 0 && starts_with_digit(rest_.substr(bytes))) refuse_separator();
    refuse_look_alike();
  }

  [[noreturn]] void refuse_comma() const {
    fail(quoted(text_) + R"( has a comma: write a decimal point, as in "11.0", and nothing between thousands)");
  }

  [[noreturn]] void refuse_separator() const {
    fail(quoted(text_) + R"( has a gap between digits: write nothing between thousands, as in "11000")");
  }

  [[noreturn]] void refuse_text_without_number() const {
    fail("expected " + std::string(expectation_) + ", got " + quoted(text_));
  }

  std::string_view text_;
  std::string_view rest_;
  Dimension expected_;
  std::string_view expectation_;
};

}  // namespace

std::size_t uncertainty_mark_in(std::string_view text) { return starts_with_any(text, uncertainty_marks); }

TypedValue read_typed_value(std::string_view text, Dimension expected, std::string_view expectation) {
  if (text.size() > longest_quantity_text) {
    throw InputError("expected " + std::string(expectation) + ", got a text of " + std::to_string(text.size()) +
                     " bytes; at most " + std::to_string(longest_quantity_text) + " are read");
  }
  return Reader(text, expected, expectation).read();
}

}  // namespace ohmwright
