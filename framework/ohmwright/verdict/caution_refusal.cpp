#include <string>
#include <variant>

#include <ohmwright/verdict/caution_refusal.hpp>

namespace ohmwright {

namespace {

std::string in_english(std::string_view pattern, std::initializer_list<FindingArgument> arguments) {
  std::string text(pattern);
  for (const FindingArgument& argument : arguments) {
    const std::string field = '{' + std::string(argument.name) + '}';
    const std::string& value = std::get<std::string>(argument.value);
    const std::size_t at = text.find(field);
    if (at != std::string::npos) text.replace(at, field.size(), value);
  }
  return text;
}

}  // namespace

CautionRefusal::CautionRefusal(std::string_view pattern, std::initializer_list<FindingArgument> arguments)
    : InputError(in_english(pattern, arguments)), pattern_(pattern), arguments_(arguments) {}
CautionRefusal::~CautionRefusal() = default;

}  // namespace ohmwright
