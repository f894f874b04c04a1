#include "reading/figure_reader.hpp"

#include <ohmwright/quantity/stated_value.hpp>

namespace ohmwright::kind_file {

namespace {

/// One way, a quantity or a rating; false where it cannot be read.
bool add_way(const ValueNode& node, Dimension dimension, const Definition& definition, Figure& figure, Notes& notes) {
  if (figure.ways.size() == figure.ways.capacity()) return false;
  if (node.text() != nullptr) {
    const std::optional<double> value = quantity_in(node, dimension, notes);
    if (value) figure.ways.push_back({not_found, *value});
    return value.has_value();
  }
  const std::uint16_t rating = place_of(node.find("rating"), "figure of the ratings", definition.ratings, notes);
  if (rating == not_found) return false;
  const RatingRow& row = definition.ratings[rating];
  if (row.dimension != dimension) {
    notes.say(*node.find("rating"), "the figure " + ohmwright::quoted(row.id) + " of the ratings is " +
                                        std::string(phrase_of(row.dimension)) + "; " +
                                        std::string(phrase_of(dimension)) + " belongs here");
    return false;
  }
  double offset = 0.0;
  if (const ValueNode* added = node.find("offset")) {
    const std::optional<double> value = quantity_in(*added, of_differences(dimension), notes);
    if (!value) return false;
    offset = *value;
  }
  figure.ways.push_back({rating, offset});
  return true;
}

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
                 Notes& notes) {
  const ValueNode* node = object.find(field);
  Figure figure;
  if (node == nullptr) return figure;
  bool whole = true;
  if (const ValueNode::Array* ways = node->array()) {
    for (const ValueNode& way : *ways) whole = add_way(way, dimension, definition, figure, notes) && whole;
  } else {
    whole = add_way(*node, dimension, definition, figure, notes);
  }
  return whole ? figure : Figure{};
}

Dimension dimension_of_figure(const ValueNode& object, std::string_view field, Dimension otherwise,
                              const Definition& definition) {
  const ValueNode* node = object.find(field);
  if (node == nullptr) return otherwise;
  const ValueNode& way = first_way(*node);
  if (way.text() != nullptr) return reads_as_ratio(*way.text()) ? Dimension::ratio : otherwise;
  const std::uint16_t rating = index_of(definition.ratings, text_in(way, "rating"));
  return rating == not_found ? otherwise : definition.ratings[rating].dimension;
}

}  // namespace ohmwright::kind_file
