#pragma once

#include <cstdlib>
#include <string_view>

#include <ohmwright/component/descriptor.hpp>

// What the fuzz targets of documents share.

namespace ohmwright::fuzz {

inline void require(bool holds) {
  if (!holds) std::abort();  // what libFuzzer reports as a finding
}

/// A refusal is text for a terminal: no control characters but line ends.
inline void require_printable(std::string_view message) {
  require(!message.empty());
  for (const char letter : message)
    require(letter == '\n' || (static_cast<unsigned char>(letter) >= 0x20 && letter != 0x7f));
}

/// A kind with two measurands, two conditions, and ratings of several forms.
inline const Descriptor& kind() {
  static const Descriptor descriptor = [] {
    Descriptor d;
    d.id = "part";
    d.aliases = {"thing"};
    d.measurands = {{"resistance", "Resistance", Dimension::resistance, "ohm", true},
                    {"speed", "Speed", Dimension::rotational_speed, "rpm", false}};
    d.conditions = {{"part_temperature", "temperature", "at", Dimension::temperature, "", 2.0, "none"},
                    {"line_voltage", "line voltage", "line", Dimension::voltage, "V", 0.0, ""}};
    d.rules = {{"first", "First", true, can_pass, "none", {{"ok", "fine"}}}};
    d.advice = {{"again", "read again"}};
    d.ratings_schema =
        R"({"$schema": "http://json-schema.org/draft-07/schema#", "type": "object", "required": ["curve"],
      "properties": {"curve": {"oneOf": [{"$ref": "#/definitions/beta"}, {"$ref": "#/definitions/chart"}]},
        "form": {"enum": ["a", "b"]}, "count": {"type": "integer", "minimum": 1}},
      "if": {"properties": {"form": {"const": "a"}}}, "then": {"required": ["count"]}, "additionalProperties": false,
      "definitions": {
        "figure": {"type": ["string", "object"], "minLength": 1, "pattern": "^[0-9]+(\\.[0-9]+)* *[A-Za-z]*$", "required": ["value"],
          "properties": {"value": {"type": "string"}}, "additionalProperties": false},
        "beta": {"type": "object", "required": ["beta"], "properties": {"form": {"const": "beta"}, "beta": {"$ref": "#/definitions/figure"}},
          "additionalProperties": false},
        "chart": {"type": "object", "required": ["rows"], "additionalProperties": false,
          "properties": {"form": {"const": "chart"}, "rows": {"type": "array", "minItems": 2, "uniqueItems": true,
            "items": {"$ref": "#/definitions/figure"}}}}}})";
    return d;
  }();
  return descriptor;
}

}  // namespace ohmwright::fuzz
