#pragma once

#include <string_view>

namespace ohmwright {

/// Whether this is, byte for byte, the text of a meter that is shipped: the tests hold each of those against
/// schemas/meter.schema.json, so it need not be again at every start.
bool is_shipped_meter(std::string_view text);

/// Whether this is, byte for byte, the text of ratings that are shipped with a kind whose schema of ratings is, byte
/// for byte, `schema_of_kind`: the tests hold each of those against it and against schemas/ratings.schema.json. A
/// plugin with another schema, or ratings of other bytes, are not known here, and are checked.
bool are_shipped_ratings(std::string_view text, std::string_view schema_of_kind);

}  // namespace ohmwright
