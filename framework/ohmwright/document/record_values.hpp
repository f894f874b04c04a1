#pragma once

#include <string>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/quantity/any_quantity.hpp>
#include <ohmwright/quantity/observed.hpp>
#include <ohmwright/quantity/stated_value.hpp>

namespace ohmwright {

// Values as one of our processes writes them for another: numbers that come back bit for bit, SI units. Whoever reads a
// record meets what we wrote, or something broken: the readers throw DocumentError at the first thing that is not as it
// should be.

nlohmann::ordered_json number_record(double number);
nlohmann::ordered_json quantity_record(AnyQuantity value);
nlohmann::ordered_json stated_record(const StatedValue& stated);
nlohmann::ordered_json observed_record(const Observed& observed);

/// Reads a record's nodes. Refers to the record's name for its errors.
class RecordReader {
 public:
  explicit RecordReader(const std::string& name) : name_(name) {}

  /// The field, which must be there.
  const ValueNode& field(const ValueNode& object, std::string_view name) const;
  double number(const ValueNode& node) const;
  /// A whole number from 0 to `largest`.
  std::size_t index(const ValueNode& node, std::size_t largest) const;
  bool flag(const ValueNode& node) const;
  const std::string& text(const ValueNode& node) const;
  const ValueNode::Array& list(const ValueNode& node) const;
  AnyQuantity quantity(const ValueNode& node) const;
  StatedValue stated(const ValueNode& node) const;
  Observed observed(const ValueNode& node) const;

  [[noreturn]] void refuse(const ValueNode& node, const std::string& expected) const;

 private:
  const std::string& name_;
};

/// Parses a record: as `parse_document`, for what a program wrote.
Document parse_record(std::string_view text, const std::string& name);

/// The record as one line of JSON. Throws InputError when a text in it is not UTF-8.
std::string record_text(const nlohmann::ordered_json& record);

}  // namespace ohmwright
