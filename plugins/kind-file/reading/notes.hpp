#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::kind_file {

/// What is wrong with a kind file, gathered place by place. The schema was checked before: what has a wrong type or is
/// missing was told there, and reads as empty here.
class Notes {
 public:
  explicit Notes(std::vector<Problem>& problems) : problems_(problems) {}

  void say(const ValueNode& at, std::string text) { problems_.push_back(at.problem(std::move(text))); }
  std::size_t count() const { return problems_.size(); }

 private:
  std::vector<Problem>& problems_;
};

std::string_view text_in(const ValueNode& object, std::string_view field);
bool flag_in(const ValueNode& object, std::string_view field, bool otherwise);
std::optional<double> number_in(const ValueNode& object, std::string_view field);
/// Entries of a list, none where there is no list of that name.
const ValueNode::Array& list_in(const ValueNode& object, std::string_view field);
/// Texts of a list of texts.
std::vector<std::string_view> texts_in(const ValueNode& object, std::string_view field);

/// The value of a quantity that has no ± of its own [SI]; nothing, and a note, where it is none of that dimension.
std::optional<double> quantity_in(const ValueNode& node, Dimension dimension, Notes& notes);

/// A half-width of a value of that dimension [SI], zero or more; 0 and a note where it is none.
double half_width_in(const ValueNode& object, std::string_view field, Dimension dimension, Notes& notes);

/// The dimension that a field names; the schema has seen to it that it is one.
Dimension dimension_in(const ValueNode& object, std::string_view field);
/// The dimension of differences: kelvin of a temperature, else its own.
Dimension of_differences(Dimension dimension);

/// Notes every id of a list that stands there before.
void check_ids_once(const ValueNode& object, std::string_view list, std::string_view sort, Notes& notes);
/// The same for a list of ids.
void check_texts_once(const ValueNode& object, std::string_view list, std::string_view sort, Notes& notes);

/// "; did you mean "x"?" or "; there is "x" or "y"".
std::string suggestion(std::string_view typed, const std::vector<std::string>& known);

/// Index of the row that `node` names, or `not_found` and a note.
template <class Row>
std::uint16_t place_of(const ValueNode* node, std::string_view sort, const std::vector<Row>& rows, Notes& notes) {
  if (node == nullptr || node->text() == nullptr) return not_found;
  const std::uint16_t index = index_of(rows, *node->text());
  if (index != not_found) return index;
  std::vector<std::string> known;
  for (const Row& row : rows) known.emplace_back(row.id);
  notes.say(*node, "there is no " + std::string(sort) + " " + ohmwright::quoted(*node->text()) +
                       suggestion(*node->text(), known));
  return not_found;
}

struct Definition;

/// Index of the terminal that `node` names, or `not_found` and a note.
std::uint16_t terminal_named(const ValueNode& node, const Definition& definition, Notes& notes);

}  // namespace ohmwright::kind_file
