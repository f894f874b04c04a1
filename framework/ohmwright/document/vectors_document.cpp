#include <cmath>
#include <set>
#include <utility>

#include <fmt/core.h>

#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/ratings_document.hpp>
#include <ohmwright/document/readings_document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/document/vectors_document.hpp>
#include <ohmwright/document/wording.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

Dimension dimension_of_difference(Dimension dimension) {
  return dimension == Dimension::temperature ? Dimension::temperature_difference : dimension;
}

double number_or_quantity(const std::variant<double, std::string>& figure, Dimension dimension) {
  if (const double* number = std::get_if<double>(&figure)) return *number;
  return parse_stated_value(std::get<std::string>(figure), dimension).value.value_in_si();
}

bool is_a_quantity(const std::string& text) {
  for (std::size_t i = 0; i < dimension_count; ++i) {
    try {
      static_cast<void>(parse_stated_value(text, static_cast<Dimension>(i)));
      return true;
    } catch (const InputError&) {
      continue;
    }
  }
  return false;
}

/// Turns the cases of a vectors file into values.
class VectorReader {
 public:
  VectorReader(const Descriptor& descriptor, const MeterSet* meters, std::vector<Problem>& problems)
      : descriptor_(descriptor), meters_(meters), schema_of_kind_(ratings_schema_of(descriptor)), problems_(problems) {}

  VectorCase read(const ValueNode& node) {
    VectorCase vector;
    vector.id = text_of(node, "id");
    vector.title = text_of(node, "title");
    vector.source = text_of(node, "source");
    vector.meter = text_of(node, "meter");
    vector.confidence = number_of(node, "confidence");
    vector.line = node.line();
    if (!vector.id.empty() && !ids_.insert(vector.id).second)
      problems_.push_back(node.find("id")->problem("the id " + ohmwright::quoted(vector.id) + " stands twice"));
    read_ratings_of(node, vector);
    vector.readings = readings_of(list_of(node, "readings"), descriptor_, meters_, vector.meter, problems_);
    if (const ValueNode* expect = node.find("expect")) read_expectations(*expect, vector);
    return vector;
  }

 private:
  void read_ratings_of(const ValueNode& node, VectorCase& vector) {
    vector.ratings_name = text_of(node, "ratings");
    const ValueNode* ratings = node.find("ratings");
    if (ratings == nullptr || ratings->members() == nullptr) return;
    vector.ratings = ratings;
    for (Problem& problem : schema_of_kind_.problems(*ratings)) problems_.push_back(std::move(problem));
  }

  void read_expectations(const ValueNode& expect, VectorCase& vector) {
    vector.verdict = outcome_named(text_of(expect, "verdict")).value_or(Outcome::undecided);
    if (const ValueNode* p = expect.find("probability_within"))
      vector.probability_within = {number_of(*p, "value").value_or(0.0), number_of(*p, "tolerance").value_or(0.0),
                                   text_of(*p, "reason")};
    for (const ValueNode& node : list_of(expect, "rules")) {
      check_id(node.find("rule"), "rule", ids_of(descriptor_.rules));
      vector.rules.push_back(
          {text_of(node, "rule"), outcome_named(text_of(node, "outcome")).value_or(Outcome::silent)});
    }
    for (const ValueNode& node : list_of(expect, "figures")) vector.figures.push_back(figure_of(node));
    if (expect.find("advice") == nullptr) return;
    vector.advice.emplace();
    for (const ValueNode& node : list_of(expect, "advice")) {
      check_id(&node, "advice", ids_of(descriptor_.advice));
      if (node.text() != nullptr) vector.advice->push_back(*node.text());
    }
  }

  void check_id(const ValueNode* node, std::string_view what, const std::vector<std::string>& known) {
    if (node == nullptr || node->text() == nullptr) return;
    for (const std::string& id : known)
      if (id == *node->text()) return;
    problems_.push_back(node->problem(fmt::format("a {} has no {} {}{}", descriptor_.id, what,
                                                  ohmwright::quoted(*node->text()), suggestion(*node->text(), known))));
  }

  /// A plain number, or a quantity that is one in some dimension.
  std::variant<double, std::string> figure_value(const ValueNode* node) {
    if (node == nullptr) return 0.0;
    if (node->number() != nullptr) return *node->number();
    if (node->text() == nullptr) return 0.0;
    if (!is_a_quantity(*node->text()))
      problems_.push_back(node->problem("expected a quantity with its unit, such as \"11.0 kohm\", got " +
                                        ohmwright::quoted(*node->text())));
    return *node->text();
  }

  ExpectedFigure figure_of(const ValueNode& node) {
    check_id(node.find("rule"), "rule", ids_of(descriptor_.rules));
    ExpectedFigure figure{text_of(node, "rule"),
                          text_of(node, "figure"),
                          figure_value(node.find("value")),
                          figure_value(node.find("tolerance")),
                          number_of(node, "relative_tolerance"),
                          text_of(node, "reason"),
                          node.pointer(),
                          node.line()};
    if (node.find("tolerance") != nullptr && figure.tolerance.index() != figure.value.index())
      problems_.push_back(
          node.find("tolerance")
              ->problem("value and tolerance are both quantities with their units, or both plain numbers"));
    return figure;
  }

  const Descriptor& descriptor_;
  const MeterSet* meters_;
  Schema schema_of_kind_;
  std::vector<Problem>& problems_;
  std::set<std::string> ids_;
};

}  // namespace

AllowedFigure allowed_in(const ExpectedFigure& figure, Dimension dimension) {
  const double value = number_or_quantity(figure.value, dimension);
  if (figure.relative_tolerance) return {value, *figure.relative_tolerance * std::fabs(value)};
  return {value, number_or_quantity(figure.tolerance, dimension_of_difference(dimension))};
}

VectorsDocument read_vectors(Document document, const Descriptor& descriptor, const MeterSet* meters) {
  const auto kept = std::make_shared<const Document>(std::move(document));
  std::vector<Problem> problems = vectors_schema().problems(*kept);
  check_kind(kept->root, descriptor, problems);
  VectorReader reader(descriptor, meters, problems);
  VectorsDocument vectors{text_of(kept->root, "kind"), {}, kept};
  for (const ValueNode& node : list_of(kept->root, "vectors")) vectors.cases.push_back(reader.read(node));
  refuse_if_any(kept->file, std::move(problems));
  return vectors;
}

}  // namespace ohmwright
