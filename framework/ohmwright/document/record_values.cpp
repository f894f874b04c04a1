#include <cmath>
#include <limits>
#include <utility>

#include <nlohmann/json.hpp>

#include <ohmwright/document/record_values.hpp>
#include <ohmwright/document/schema_lookup.hpp>

namespace ohmwright {

namespace {

using Json = nlohmann::ordered_json;

constexpr double infinity = std::numeric_limits<double>::infinity();

/// The first dimension with that SI unit; a difference of temperatures says so itself, since it shares kelvin.
std::optional<Dimension> dimension_with_unit(std::string_view unit) {
  for (std::size_t i = 0; i < dimension_count; ++i)
    if (si_unit_of(static_cast<Dimension>(i)) == unit) return static_cast<Dimension>(i);
  return std::nullopt;
}

}  // namespace

Json number_record(double number) {
  if (std::isfinite(number)) return number;
  if (std::isnan(number)) return "nan";
  return number > 0.0 ? "infinity" : "-infinity";
}

Json quantity_record(AnyQuantity value) {
  Json record{{"value", number_record(value.value_in_si())}, {"unit", si_unit_of(value.dimension())}};
  if (dimension_with_unit(si_unit_of(value.dimension())) != value.dimension())
    record["dimension"] = name_of(value.dimension());
  return record;
}

Json stated_record(const StatedValue& stated) {
  Json record = quantity_record(stated.value);
  if (stated.half_width) record["half_width"] = number_record(*stated.half_width);
  record["typed_unit"] = stated.unit.symbol();
  if (stated.unit_assumed) record["unit_assumed"] = true;
  return record;
}

Json observed_record(const Observed& observed) {
  if (const auto* stated = std::get_if<StatedValue>(&observed)) return stated_record(*stated);
  if (const auto* contact = std::get_if<ContactState>(&observed))
    return {{"contact", *contact == ContactState::open ? "open" : "closed"}};
  Json record{{"over_range", true}};
  if (const std::optional<Unit>& unit = std::get<OverRange>(observed).unit) {
    record["typed_unit"] = unit->symbol();
    record["dimension"] = name_of(unit->dimension());
  }
  if (const std::optional<AnyQuantity>& end = std::get<OverRange>(observed).more_than)
    record["more_than"] = quantity_record(*end);
  return record;
}

void RecordReader::refuse(const ValueNode& node, const std::string& expected) const {
  throw DocumentError(name_, {node.problem("found " + found_in_words(node) + "; expected " + expected)});
}

const ValueNode& RecordReader::field(const ValueNode& object, std::string_view name) const {
  if (const ValueNode* node = object.find(name)) return *node;
  throw DocumentError(name_, {object.problem("the field \"" + std::string(name) + "\" is missing")});
}

double RecordReader::number(const ValueNode& node) const {
  if (const double* number = node.number()) return *number;
  if (const std::string* text = node.text()) {
    if (*text == "nan") return std::numeric_limits<double>::quiet_NaN();
    if (*text == "infinity") return infinity;
    if (*text == "-infinity") return -infinity;
  }
  refuse(node, "a number");
}

std::size_t RecordReader::index(const ValueNode& node, std::size_t largest) const {
  const double* number = node.number();
  if (number == nullptr || std::trunc(*number) != *number || *number < 0.0 || *number > static_cast<double>(largest))
    refuse(node, "a whole number from 0 to " + std::to_string(largest));
  return static_cast<std::size_t>(*number);
}

bool RecordReader::flag(const ValueNode& node) const {
  if (node.flag() == nullptr) refuse(node, "true or false");
  return *node.flag();
}

const std::string& RecordReader::text(const ValueNode& node) const {
  if (node.text() == nullptr) refuse(node, "text");
  return *node.text();
}

const ValueNode::Array& RecordReader::list(const ValueNode& node) const {
  if (node.array() == nullptr) refuse(node, "a list");
  return *node.array();
}

AnyQuantity RecordReader::quantity(const ValueNode& node) const {
  const std::string& unit = text(field(node, "unit"));
  const ValueNode* named = node.find("dimension");
  const std::optional<Dimension> dimension =
      named != nullptr ? dimension_named(text(*named)) : dimension_with_unit(unit);
  if (!dimension || si_unit_of(*dimension) != unit) refuse(field(node, "unit"), "an SI unit");
  return {*dimension, number(field(node, "value"))};
}

StatedValue RecordReader::stated(const ValueNode& node) const {
  const AnyQuantity value = quantity(node);
  const ValueNode& typed = field(node, "typed_unit");
  // A ratio's unit one has no symbol.
  const std::optional<Unit> unit =
      text(typed).empty() ? Unit::si(value.dimension()) : Unit::named(text(typed), value.dimension());
  if (!unit) refuse(typed, "a unit");
  StatedValue stated{value, std::nullopt, *unit};
  if (const ValueNode* half_width = node.find("half_width")) stated.half_width = number(*half_width);
  if (const ValueNode* assumed = node.find("unit_assumed")) stated.unit_assumed = flag(*assumed);
  return stated;
}

Observed RecordReader::observed(const ValueNode& node) const {
  if (const ValueNode* contact = node.find("contact")) {
    if (text(*contact) == "open") return ContactState::open;
    if (text(*contact) == "closed") return ContactState::closed;
    refuse(*contact, "\"open\" or \"closed\"");
  }
  if (node.find("over_range") == nullptr) return stated(node);
  OverRange over;
  if (const ValueNode* typed = node.find("typed_unit")) {
    const std::optional<Dimension> dimension = dimension_named(text(field(node, "dimension")));
    over.unit = dimension ? Unit::named(text(*typed), *dimension) : std::nullopt;
    if (!over.unit) refuse(*typed, "a unit");
  }
  if (const ValueNode* end = node.find("more_than")) over.more_than = quantity(*end);
  return over;
}

Document parse_record(std::string_view text, const std::string& name) {
  DocumentLimits limits;
  limits.control_characters = true;
  limits.text_bytes = limits.bytes;
  return parse_document(text, name, limits);
}

std::string record_text(const Json& record) {
  try {
    return record.dump();
  } catch (const Json::type_error&) {
    throw InputError("a text among the readings is not UTF-8; type it again in a UTF-8 terminal");
  }
}

}  // namespace ohmwright
