#include "reading/figure_reader.hpp"

#include <cmath>
#include <memory>
#include <utility>

#include <ohmwright/quantity/stated_value.hpp>

#include "formula/formula_reader.hpp"

namespace ohmwright::kind_file {

namespace {

std::vector<FormulaName> names_for_formulas(const Definition& definition) {
  std::vector<FormulaName> names;
  for (const RatingRow& row : definition.ratings)
    names.push_back({row.id, row.dimension, false, static_cast<std::uint16_t>(names.size())});
  const auto& conditions = definition.descriptor.conditions;
  for (std::size_t i = 0; i < conditions.size(); ++i)
    names.push_back({conditions[i].id, conditions[i].dimension, true, static_cast<std::uint16_t>(i)});
  return names;
}

/// Reads figures that stand in one place of the file.
class WayReader {
 public:
  WayReader(Dimension dimension, FormulaOf may_be_of, const Definition& definition, Notes& notes)
      : dimension_(dimension), may_be_of_(may_be_of), definition_(definition), notes_(notes) {}

  /// Adds one way; false, and a note, where it cannot be read.
  bool add(const ValueNode& node, Figure& figure) {
    if (figure.ways.size() == figure.ways.capacity()) return false;
    if (node.text() != nullptr) {
      const std::optional<double> value = quantity_in(node, dimension_, notes_);
      if (value) figure.ways.push_back({not_found, *value});
      return value.has_value();
    }
    const bool is_rating = node.find("rating") != nullptr;
    const ValueNode* formula = node.find("formula");
    if (is_rating == (formula != nullptr)) {
      notes_.say(node, "a figure is a quantity, or has either \"rating\" or \"formula\"");
      return false;
    }
    return is_rating ? add_rating(node, figure) : add_formula(node, *formula, figure);
  }

 private:
  bool add_rating(const ValueNode& node, Figure& figure) {
    const std::uint16_t rating = place_of(node.find("rating"), "figure of the ratings", definition_.ratings, notes_);
    if (rating == not_found) return false;
    const RatingRow& row = definition_.ratings[rating];
    if (row.dimension != dimension_) {
      notes_.say(*node.find("rating"), "the figure " + ohmwright::quoted(row.id) + " of the ratings is " +
                                           std::string(phrase_of(row.dimension)) + "; " +
                                           std::string(phrase_of(dimension_)) + " belongs here");
      return false;
    }
    double offset = 0.0;
    if (const ValueNode* added = node.find("offset")) {
      const std::optional<double> value = quantity_in(*added, of_differences(dimension_), notes_);
      if (!value) return false;
      offset = *value;
    }
    figure.ways.push_back({rating, offset});
    return true;
  }

  bool add_formula(const ValueNode& node, const ValueNode& formula, Figure& figure) {
    if (formula.text() == nullptr) return false;
    if (const ValueNode* offset = node.find("offset")) {
      notes_.say(*offset, "what is added to a formula stands in the formula");
      return false;
    }
    ReadFormula read = read_formula(*formula.text(), names_for_formulas(definition_));
    const std::string wrong = read.formula ? wrong_with(*read.formula) : read.refusal;
    if (!wrong.empty()) {
      notes_.say(formula, wrong);
      return false;
    }
    figure.ways.push_back({not_found, 0.0, std::make_shared<const Formula>(*std::move(read.formula))});
    return true;
  }

  std::string wrong_with(const Formula& formula) const {
    if (formula.powers != powers_of(dimension_))
      return "the formula gives " + in_words(formula.powers) + "; " + std::string(phrase_of(dimension_)) +
             " belongs here";
    if (!formula.conditions.empty() && may_be_of_ == FormulaOf::ratings)
      return "no condition can stand in this formula: what moves with a condition is the nominal value of limits, or "
             "a limit that stands alone";
    const bool constant = formula.ratings.empty() && formula.conditions.empty();
    if (constant && !std::isfinite(formula.at({}, {}).value)) return "the formula gives no number";
    return {};
  }

  Dimension dimension_;
  FormulaOf may_be_of_;
  const Definition& definition_;
  Notes& notes_;
};

const ValueNode& first_way(const ValueNode& node) {
  return node.array() != nullptr && !node.array()->empty() ? node.array()->front() : node;
}

bool reads_as_ratio(const std::string& text) {
  try {
    parse_stated_value(text, Dimension::ratio);
    return true;
  } catch (const InputError&) {
    return false;
  }
}

}  // namespace

Figure figure_in(const ValueNode& object, std::string_view field, Dimension dimension, const Definition& definition,
                 Notes& notes, FormulaOf may_be_of) {
  const ValueNode* node = object.find(field);
  Figure figure;
  if (node == nullptr) return figure;
  bool whole = true;
  if (const ValueNode::Array* ways = node->array()) {
    WayReader reader(dimension, FormulaOf::ratings, definition, notes);  // of a list none can be told beforehand
    for (const ValueNode& way : *ways) whole = reader.add(way, figure) && whole;
  } else {
    whole = WayReader(dimension, may_be_of, definition, notes).add(*node, figure);
  }
  return whole ? figure : Figure{};
}

Dimension dimension_of_figure(const ValueNode& object, std::string_view field, Dimension otherwise,
                              const Definition& definition) {
  const ValueNode* node = object.find(field);
  if (node == nullptr) return otherwise;
  const ValueNode& way = first_way(*node);
  if (way.text() != nullptr) return reads_as_ratio(*way.text()) ? Dimension::ratio : otherwise;
  if (const ValueNode* text = way.find("formula"); text != nullptr && text->text() != nullptr) {
    const ReadFormula read = read_formula(*text->text(), names_for_formulas(definition));
    return read.formula && read.formula->powers == Powers{} ? Dimension::ratio : otherwise;
  }
  const std::uint16_t rating = index_of(definition.ratings, text_in(way, "rating"));
  return rating == not_found ? otherwise : definition.ratings[rating].dimension;
}

}  // namespace ohmwright::kind_file
