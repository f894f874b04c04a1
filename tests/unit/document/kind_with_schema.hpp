#pragma once

#include "test_kind.hpp"

namespace ohmwright::testing {

/// The test kind with a schema of its ratings: a nominal value and a tolerance.
inline const Descriptor& kind_with_schema() {
  static const Descriptor descriptor = [] {
    Descriptor d = test_descriptor();
    d.ratings_schema =
        R"({"$schema": "http://json-schema.org/draft-07/schema#", "type": "object", "required": ["nominal"],
      "properties": {"nominal": {"$ref": "#/definitions/figure"}, "tolerance": {"$ref": "#/definitions/figure"}},
      "additionalProperties": false,
      "definitions": {"figure": {"type": ["string", "object"], "required": ["value"], "additionalProperties": false,
        "properties": {"value": {"type": "string"}, "source": {"type": "string"}}}}})";
    return d;
  }();
  return descriptor;
}

}  // namespace ohmwright::testing
