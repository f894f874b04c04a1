#pragma once

#include <span>
#include <string_view>

#include <ohmwright/quantity/core_api.hpp>

namespace ohmwright {

/// A hazard that a step carries, shown before the step. Local codes and licensed practice come first.
struct Caution {
  std::string_view id;
  std::string_view brief;    ///< the same in a few words, without a full stop: what stands above every verdict
  std::string_view english;  ///< looked up in the framework's catalogue when printed
  std::string_view source;
};

/// A step of work and what can hurt in it, whatever is worked on.
struct CautionedStep {
  std::string_view id;
  std::span<const std::string_view> cautions;  ///< ids, in the order in which they are shown
};

/// The framework's cautions, as cautions.json has them. Plugins refer to them by id and add their own; none can be
/// weakened.
OHMWRIGHT_CORE_API std::span<const Caution> framework_cautions();

/// The steps of cautions.json.
OHMWRIGHT_CORE_API std::span<const CautionedStep> cautioned_steps();

/// The caution of that id, or null.
OHMWRIGHT_CORE_API const Caution* caution_named(std::string_view id);

/// Ids of the cautions of a step; none where the file has no such step.
OHMWRIGHT_CORE_API std::span<const std::string_view> cautions_of_step(std::string_view step);

}  // namespace ohmwright
