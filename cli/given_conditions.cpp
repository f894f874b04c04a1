#include "given_conditions.hpp"

#include <ohmwright/document/kind_values.hpp>
#include <ohmwright/quantity/article.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/stated_value.hpp>

namespace ohmwright::cli {

namespace {

/// Condition with that id or option.
std::uint16_t condition_named(const Descriptor& descriptor, const std::string& name) {
  std::vector<std::string> known;
  for (std::size_t i = 0; i < descriptor.conditions.size(); ++i) {
    const ConditionDescriptor& condition = descriptor.conditions[i];
    if (condition.id == name || condition.option == name) return static_cast<std::uint16_t>(i);
    known.emplace_back(condition.option);
  }
  std::string list;
  for (const std::string& option : known) list += (list.empty() ? "" : ", ") + option;
  throw InputError(with_article(descriptor.id) + " knows no condition " + ohmwright::quoted(name) +
                   did_you_mean(name, known) + "; it has: " + list);
}

}  // namespace

AnyQuantity condition_value(const Descriptor& descriptor, std::uint16_t condition, const std::string& text,
                            UnitPreferences& units) {
  const ConditionDescriptor& row = descriptor.conditions[condition];
  StatedValueOptions options;
  if (!row.default_unit.empty()) options.default_unit = Unit::named(row.default_unit, row.dimension);
  const StatedValue stated = parse_stated_value(text, row.dimension, options);
  if (const std::string slip = slip_in(stated); !slip.empty())
    throw InputError("--" + std::string(row.option) + ": " + slip);
  units.prefer(stated.unit);
  return stated.value;
}

std::vector<ConditionValue> given_conditions(const Arguments& arguments, const Descriptor& descriptor,
                                             UnitPreferences& units) {
  std::vector<ConditionValue> given;
  const auto found = arguments.options.find("--given");
  if (found == arguments.options.end()) return given;
  for (const std::string& word : found->second) {
    const std::size_t equals = word.find('=');
    if (equals == std::string::npos)
      throw InputError("--given takes CONDITION=VALUE, such as at=23C, got " + ohmwright::quoted(word));
    const std::uint16_t condition = condition_named(descriptor, word.substr(0, equals));
    given.push_back({condition, condition_value(descriptor, condition, word.substr(equals + 1), units).value_in_si()});
  }
  return given;
}

OptionSpec given_option() {
  return {"--given", "CONDITION=VALUE", OHMWRIGHT_TEXT("A condition that stays as it is: --given at=23C"), {}, true};
}

}  // namespace ohmwright::cli
