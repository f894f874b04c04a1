#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/meter.hpp>
#include <ohmwright/plugin/loaded_kind.hpp>

namespace ohmwright {

/// One check of the conformance kit and what it asks the author to mend.
struct KitCheck {
  std::string_view id;
  std::string_view title;  ///< an English sentence, translated when printed: what holds where nothing is asked
  std::vector<std::string> to_mend;  ///< empty: it holds, or was not tried
  std::string not_tried{};           ///< why there was nothing to try it on: an English sentence
};

/// Hears of a check before it begins (nothing to mend yet) and after it (the result): the check may end the process.
struct KitListener {
  std::function<void(const KitCheck&)> begins;
  std::function<void(const KitCheck&)> ends;
};

/// Tries everything that is promised of a kind: what its file exports (a library), what it says of itself, its schema,
/// its ratings, its vectors and the contracts (contract.hpp). Runs code of the plugin in this process.
void run_kit(const LoadedKind& kind, const MeterSet& meters, const KitListener& listener);

/// Beginning of the source of a figure that nobody has looked up yet; the templates of new kinds are full of it.
inline constexpr std::string_view placeholder = "PLACEHOLDER";

/// Whether somebody has still to write a text: it holds that word in whatever case, TODO, FIXME or TBD, or a field of a
/// template ("@TITLE@").
bool holds_placeholder(std::string_view text);

}  // namespace ohmwright
