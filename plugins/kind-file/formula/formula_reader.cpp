#include "formula/formula_reader.hpp"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>

#include "formula/tokens.hpp"

namespace ohmwright::kind_file {

namespace {

using Does = FormulaStep::Does;

/// Ends the reading; caught where it began.
struct Refused {
  std::size_t at = 0;
  std::string text;
};

struct FunctionRow {
  std::string_view name;
  Does does;
  bool takes_several;
};
constexpr std::array<FunctionRow, 7> functions{{{"sqrt", Does::square_root, false},
                                                {"exp", Does::exponential, false},
                                                {"ln", Does::logarithm, false},
                                                {"abs", Does::absolute, false},
                                                {"min", Does::smaller, true},
                                                {"max", Does::larger, true},
                                                {"kelvin", Does::number, false}}};  // no step: it is in kelvin already
constexpr std::string_view kelvin_function = "kelvin";

const FunctionRow* function_named(std::string_view name) {
  const auto* const found =
      std::find_if(functions.begin(), functions.end(), [name](const FunctionRow& row) { return row.name == name; });
  return found == functions.end() ? nullptr : found;
}

/// A value of the formula while it is read: its powers, and where it begins.
struct Piece {
  Powers powers;
  std::size_t at = 0;
};

class FormulaReader {
 public:
  FormulaReader(std::string_view text, std::span<const FormulaName> names) : tokens_(text), names_(names) {}

  Formula read() {
    formula_.powers = sum().powers;
    if (tokens_.now().sort != Token::Sort::end) refuse_token("an operator (+ - * / ^) or the end belongs here");
    return std::move(formula_);
  }

 private:
  [[noreturn]] static void refuse(std::size_t at, std::string text) { throw Refused{at, std::move(text)}; }

  /// Refuses what stands at this place; what is no token at all says so itself.
  [[noreturn]] void refuse_token(const std::string& wanted) const {
    const Token& token = tokens_.now();
    if (!token.unknown_unit.empty()) {
      const bool is_name = std::any_of(names_.begin(), names_.end(),
                                       [&](const FormulaName& name) { return name.id == token.unknown_unit; });
      refuse(token.at, is_name ? "between a number and a name stands \"*\""
                               : "there is no unit " + ohmwright::quoted(token.unknown_unit));
    }
    if (token.sort == Token::Sort::wrong && token.text == "'") refuse(token.at, "the quote of a name is not closed");
    refuse(token.at, wanted);
  }

  void push(FormulaStep step, std::size_t at) {
    if (++height_ > deepest_formula) refuse(at, "the formula is too deep; write it with fewer parentheses");
    formula_.steps.push_back(step);
  }

  void take_two(Does does) {
    --height_;
    formula_.steps.push_back({does});
  }

  Piece sum() {
    Piece left = product_of();
    while (tokens_.is_sign('+') || tokens_.is_sign('-')) {
      const bool adds = tokens_.is_sign('+');
      const std::size_t at = tokens_.now().at;
      tokens_.advance();
      const Piece right = product_of();
      left.powers = adds ? added(left.powers, right.powers, at) : subtracted(left.powers, right.powers, at);
      take_two(adds ? Does::add : Does::subtract);
    }
    return left;
  }

  static Powers added(const Powers& a, const Powers& b, std::size_t at) {
    const Powers difference = powers_of(Dimension::temperature_difference);
    if (a.is_point && b.is_point)
      refuse(at, "two temperatures cannot be added; a temperature difference such as 5 K can");
    if ((a.is_point && b == difference) || (b.is_point && a == difference)) return powers_of(Dimension::temperature);
    if (a != b) refuse(at, in_words(a) + " and " + in_words(b) + " cannot be added");
    return a;
  }

  static Powers subtracted(const Powers& a, const Powers& b, std::size_t at) {
    const Powers difference = powers_of(Dimension::temperature_difference);
    if (a.is_point && b.is_point) return difference;
    if (a.is_point && b == difference) return a;
    if (a != b) refuse(at, in_words(b) + " cannot be taken from " + in_words(a));
    return a;
  }

  /// Only differences of temperatures can be multiplied: twice 20 °C is no 40 °C.
  static void refuse_point(const Piece& part) {
    if (part.powers.is_point)
      refuse(part.at,
             "a temperature cannot be multiplied; write kelvin(…) for its kelvins above absolute zero, or a "
             "difference of two");
  }

  static Powers of_use(std::optional<Powers> powers, std::size_t at) {
    if (!powers) refuse(at, "the powers of its units grow beyond all use");
    return *powers;
  }

  Piece product_of() {
    Piece left = sign_of();
    while (tokens_.is_sign('*') || tokens_.is_sign('/')) {
      const bool multiplies = tokens_.is_sign('*');
      const std::size_t at = tokens_.now().at;
      tokens_.advance();
      const Piece right = sign_of();
      refuse_point(left);
      refuse_point(right);
      left.powers = of_use(product(left.powers, right.powers, multiplies ? 1 : -1), at);
      take_two(multiplies ? Does::multiply : Does::divide);
    }
    return left;
  }

  Piece sign_of() {
    if (!tokens_.is_sign('-')) return power();
    const std::size_t at = tokens_.now().at;
    tokens_.advance();
    Piece part = power();
    refuse_point(part);
    part.at = at;
    formula_.steps.push_back({Does::negate});
    return part;
  }

  Piece power() {
    Piece base = value();
    if (!tokens_.is_sign('^')) return base;
    refuse_point(base);
    const std::size_t at = tokens_.now().at;
    tokens_.advance();
    const int sign = tokens_.is_sign('-') ? -1 : 1;
    if (sign < 0) tokens_.advance();
    const Token& token = tokens_.now();
    const bool is_digit = token.sort == Token::Sort::number && token.dimension == Dimension::ratio &&
                          token.text.size() == 1 && token.text.front() != '.' &&
                          token.value == token.text.front() - '0';
    if (!is_digit) refuse_token("a power is one digit, such as ^2 or ^-1; a root is sqrt(…)");
    const int exponent = sign * (token.text.front() - '0');
    tokens_.advance();
    base.powers = of_use(raised(base.powers, exponent), at);
    formula_.steps.push_back({Does::raise, static_cast<std::int8_t>(exponent)});
    return base;
  }

  Piece value() {
    const Token token = tokens_.now();
    if (token.sort == Token::Sort::number) {
      push({Does::number, 1, 0, token.value}, token.at);
      tokens_.advance();
      return {powers_of(token.dimension), token.at};
    }
    if (token.sort == Token::Sort::name) {
      tokens_.advance();
      return tokens_.is_sign('(') ? call(token) : named(token);
    }
    if (!tokens_.is_sign('(')) refuse_token("a number, a name, a function or \"(\" belongs here");
    tokens_.advance();
    Piece inner = nested(token.at);
    close();
    inner.at = token.at;
    return inner;
  }

  Piece nested(std::size_t at) {
    if (++depth_ > deepest_formula) refuse(at, "the formula is too deep; write it with fewer parentheses");
    const Piece part = sum();
    --depth_;
    return part;
  }

  void close() {
    if (!tokens_.is_sign(')')) refuse_token("a closing parenthesis belongs here");
    tokens_.advance();
  }

  Piece named(const Token& token) {
    const FormulaName* found = nullptr;
    for (const FormulaName& name : names_) {
      if (name.id != token.text) continue;
      if (found != nullptr)
        refuse(token.at, ohmwright::quoted(token.text) +
                             " is a condition and a figure of the ratings; give one of them another id");
      found = &name;
    }
    if (found == nullptr) refuse_name(token);
    push({found->is_condition ? Does::condition : Does::rating, 1, found->index, 0.0}, token.at);
    std::vector<std::uint16_t>& used = found->is_condition ? formula_.conditions : formula_.ratings;
    if (std::find(used.begin(), used.end(), found->index) == used.end()) used.push_back(found->index);
    return {powers_of(found->dimension), token.at};
  }

  [[noreturn]] void refuse_name(const Token& token) const {
    if (function_named(token.text) != nullptr)
      refuse(token.at, ohmwright::quoted(token.text) + " is a function; its value stands behind it in parentheses");
    std::vector<std::string> known;
    const std::string before = std::string(token.text) + '-';
    for (const FormulaName& name : names_) {
      known.emplace_back(name.id);
      if (name.id.substr(0, before.size()) == before)
        refuse(token.at, "a name with \"-\" stands between single quotes: '" + std::string(name.id) + "'");
    }
    const std::string meant = did_you_mean(token.text, known);
    std::string all = known.empty() ? "; there is none" : "; there is " + one_of(known);
    refuse(token.at, "there is no condition and no figure of the ratings " + ohmwright::quoted(token.text) +
                         (meant.empty() ? all : meant));
  }

  Piece call(const Token& token) {
    const FunctionRow* function = function_named(token.text);
    if (function == nullptr) {
      std::vector<std::string> known;
      for (const FunctionRow& row : functions) known.emplace_back(row.name);
      refuse(token.at, "there is no function " + ohmwright::quoted(token.text) + "; there is " + one_of(known));
    }
    tokens_.advance();
    Piece part = nested(token.at);
    if (function->takes_several) {
      if (!tokens_.is_sign(',')) refuse_token(std::string(function->name) + " takes two values or more");
      while (tokens_.is_sign(',')) {
        tokens_.advance();
        const Piece other = nested(token.at);
        if (other.powers != part.powers)
          refuse(other.at, in_words(part.powers) + " and " + in_words(other.powers) + " cannot be compared");
        take_two(function->does);
      }
    }
    close();
    return {applied(*function, part), token.at};
  }

  Powers applied(const FunctionRow& function, const Piece& part) {
    if (function.takes_several) return part.powers;
    if (function.name == kelvin_function) {
      if (part.powers.is_point) return powers_of(Dimension::temperature_difference);
      refuse(part.at, "kelvin takes a temperature, not " + in_words(part.powers));
    }
    refuse_point(part);
    formula_.steps.push_back({function.does});
    if (function.does == Does::absolute) return part.powers;
    if (function.does == Does::square_root) {
      if (const std::optional<Powers> half = root(part.powers)) return *half;
      refuse(part.at, in_words(part.powers) + " has no square root");
    }
    if (part.powers != Powers{})
      refuse(part.at, std::string(function.name) + " takes a ratio, not " + in_words(part.powers));
    return part.powers;
  }

  Tokens tokens_;
  std::span<const FormulaName> names_;
  Formula formula_;
  std::size_t height_ = 0;
  std::size_t depth_ = 0;
};

}  // namespace

std::string place_in_formula(std::string_view text, std::size_t at) {
  constexpr std::size_t shown = 20;
  const auto begins = [&](std::size_t i) { return (static_cast<unsigned char>(text[i]) & 0xC0U) != 0x80U; };
  std::size_t characters = 1;
  for (std::size_t i = 0; i < at && i < text.size(); ++i) characters += begins(i) ? 1 : 0;
  std::size_t end = std::min(at, text.size());
  for (std::size_t count = 0; end < text.size() && (count < shown || !begins(end)); ++end) ++count;
  const std::string place = "character " + std::to_string(characters);
  return at < text.size() ? place + " (" + ohmwright::quoted(text.substr(at, end - at)) + ")" : place + " (the end)";
}

ReadFormula read_formula(std::string_view text, std::span<const FormulaName> names) {
  try {
    return {FormulaReader(text, names).read(), {}};
  } catch (const Refused& refused) {
    return {std::nullopt, place_in_formula(text, refused.at) + ": " + refused.text};
  }
}

}  // namespace ohmwright::kind_file
