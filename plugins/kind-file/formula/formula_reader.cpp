#include "formula/formula_reader.hpp"

#include <algorithm>
#include <utility>
#include <vector>

#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>

#include "formula/dimension_rules.hpp"
#include "formula/tokens.hpp"

namespace ohmwright::kind_file {

namespace {

using Does = FormulaStep::Does;

const FormulaFunction* function_named(std::string_view name) {
  for (const FormulaFunction& function : formula_functions())
    if (function.name == name) return &function;
  return nullptr;
}

class FormulaReader {
 public:
  FormulaReader(std::string_view text, std::span<const FormulaName> names) : tokens_(text), names_(names) {}

  Formula read() {
    formula_.powers = sum().powers;
    if (tokens_.now().sort != Token::Sort::end) refuse_token("an operator (+ - * / ^) or the end belongs here");
    return std::move(formula_);
  }

 private:
  [[noreturn]] static void refuse(std::size_t at, std::string text) { throw FormulaRefusal{at, std::move(text)}; }

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

  FormulaValue sum() {
    FormulaValue left = product_of();
    while (tokens_.is_sign('+') || tokens_.is_sign('-')) {
      const bool adds = tokens_.is_sign('+');
      const std::size_t at = tokens_.now().at;
      tokens_.advance();
      const FormulaValue right = product_of();
      left.powers =
          adds ? powers_of_sum(left.powers, right.powers, at) : powers_of_difference(left.powers, right.powers, at);
      take_two(adds ? Does::add : Does::subtract);
    }
    return left;
  }

  FormulaValue product_of() {
    FormulaValue left = sign_of();
    while (tokens_.is_sign('*') || tokens_.is_sign('/')) {
      const bool multiplies = tokens_.is_sign('*');
      const std::size_t at = tokens_.now().at;
      tokens_.advance();
      const FormulaValue right = sign_of();
      left.powers = powers_of_product(left, right, multiplies ? 1 : -1, at);
      take_two(multiplies ? Does::multiply : Does::divide);
    }
    return left;
  }

  FormulaValue sign_of() {
    if (!tokens_.is_sign('-')) return power();
    const std::size_t at = tokens_.now().at;
    tokens_.advance();
    FormulaValue part = power();
    refuse_point(part);
    part.at = at;
    formula_.steps.push_back({Does::negate});
    return part;
  }

  FormulaValue power() {
    FormulaValue base = value();
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
    base.powers = powers_of_power(base, exponent, at);
    formula_.steps.push_back({Does::raise, static_cast<std::int8_t>(exponent)});
    return base;
  }

  FormulaValue value() {
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
    FormulaValue inner = nested(token.at);
    close();
    inner.at = token.at;
    return inner;
  }

  FormulaValue nested(std::size_t at) {
    if (++depth_ > deepest_formula) refuse(at, "the formula is too deep; write it with fewer parentheses");
    const FormulaValue part = sum();
    --depth_;
    return part;
  }

  void close() {
    if (!tokens_.is_sign(')')) refuse_token("a closing parenthesis belongs here");
    tokens_.advance();
  }

  FormulaValue named(const Token& token) {
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

  FormulaValue call(const Token& token) {
    const FormulaFunction* function = function_named(token.text);
    if (function == nullptr) {
      std::vector<std::string> known;
      for (const FormulaFunction& row : formula_functions()) known.emplace_back(row.name);
      refuse(token.at, "there is no function " + ohmwright::quoted(token.text) + "; there is " + one_of(known));
    }
    tokens_.advance();
    FormulaValue part = nested(token.at);
    if (function->takes_several) {
      if (!tokens_.is_sign(',')) refuse_token(std::string(function->name) + " takes two values or more");
      while (tokens_.is_sign(',')) {
        tokens_.advance();
        const FormulaValue other = nested(token.at);
        if (other.powers != part.powers)
          refuse(other.at, in_words(part.powers) + " and " + in_words(other.powers) + " cannot be compared");
        take_two(*function->does);
      }
    }
    close();
    const Powers powers = powers_of_call(*function, part);
    if (function->does && !function->takes_several) formula_.steps.push_back({*function->does});
    return {powers, token.at};
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
  } catch (const FormulaRefusal& refused) {
    return {std::nullopt, place_in_formula(text, refused.at) + ": " + refused.text};
  }
}

}  // namespace ohmwright::kind_file
