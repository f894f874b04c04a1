#include "refusal_text.hpp"

#include <ohmwright/report/sentences.hpp>
#include <ohmwright/verdict/caution_refusal.hpp>

namespace ohmwright::cli {

std::string refusal_text(const Error& error) {
  const auto* caution = dynamic_cast<const CautionRefusal*>(&error);
  if (caution == nullptr) return error.what();
  return Sentences{UnitPreferences{}}(caution->pattern(), caution->arguments());
}

}  // namespace ohmwright::cli
