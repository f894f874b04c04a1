#pragma once

#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/job/entry.hpp>
#include <ohmwright/job/service_call.hpp>
#include <ohmwright/report/sentences.hpp>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// A question of the phone. Where it has choices it is answered by a digit, else by a value that is typed, or by
/// nothing.
struct PhoneQuestion {
  std::string_view id;
  std::string_view asks;
  struct Choice {
    std::string_view id;
    std::string_view text;
  };
  std::vector<Choice> choices = {};
  bool is_of_cold = false;    ///< asked of what has a refrigerant
  bool is_of_danger = false;  ///< asked before all else
};
const std::vector<PhoneQuestion>& phone_questions();
/// The first that the call has no answer to and that its appliance asks for; null: none is left.
const PhoneQuestion* next_phone_question(const job::ServiceCall& call);

/// The entry for an answer. Throws InputError for a question that is not asked, or an answer that is none of its
/// choices.
job::NewEntry phone_entry(const std::string& question, const std::string& answer);

/// Asks one question until it is answered; nothing where the input ends, or the person stops (0).
std::optional<std::string> ask_phone_question(const PhoneQuestion& question, std::istream& in, Environment& environment,
                                              const Sentences& say);

/// What is said at once of an answer that speaks of danger; empty: nothing.
std::string phone_warning(std::string_view question, std::string_view answer, const Sentences& say);

/// After the phone: what is to be done at once (tingling, a burning smell, a flammable refrigerant), "leave the ice as
/// it is", and what to bring.
std::string phone_advice(const job::ServiceCall& call, const Sentences& say, const PageStyle& style);

/// A line that was typed, without blanks around it; nothing at the end of the input.
std::optional<std::string> typed_line(std::istream& in, Environment& environment, std::string_view prompt);

}  // namespace ohmwright::cli
