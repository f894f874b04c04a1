#include <array>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/log_verdict_table.hpp>
#include <ohmwright/report/log_words.hpp>

namespace ohmwright {

namespace {

struct RuleTitle {
  std::string_view rule;
  std::string_view english;
};

constexpr std::array rule_titles{
    RuleTitle{"runs-and-cools", OHMWRIGHT_TEXT("Whether it runs and cools")},
    RuleTitle{"heat-stops", OHMWRIGHT_TEXT("Whether the heating stops")},
    RuleTitle{"coil-heat", OHMWRIGHT_TEXT("How warm the coil gets")},
    RuleTitle{"defrosts-come", OHMWRIGHT_TEXT("Whether it defrosts")},
    RuleTitle{"heater-warms-coil", OHMWRIGHT_TEXT("Whether the heater warms the coil")},
    RuleTitle{"heat-comes-from-heater", OHMWRIGHT_TEXT("Whether the heater draws")},
    RuleTitle{"defrost-end", OHMWRIGHT_TEXT("What ends the defrosts")},
    RuleTitle{"interval", OHMWRIGHT_TEXT("The interval between defrosts")},
    RuleTitle{"heater-power", OHMWRIGHT_TEXT("The heater's power")},
    RuleTitle{"air-over-coil", OHMWRIGHT_TEXT("Whether air moves over the coil")},
    RuleTitle{"lasting-change", OHMWRIGHT_TEXT("The last days against those before")},
    RuleTitle{"frost-load", OHMWRIGHT_TEXT("Frost from defrost to defrost")},
    RuleTitle{"compressor-stops", OHMWRIGHT_TEXT("Whether the compressor stops")},
    RuleTitle{"compressor-starts", OHMWRIGHT_TEXT("How the compressor starts")},
};

std::string written(double value, WrittenAs how) {
  switch (how) {
    case WrittenAs::duration:
    case WrittenAs::interval:
      return duration_text(value);
    case WrittenAs::percent:
      return rounded(100.0 * value) + " %";
    case WrittenAs::tenths:
      return rounded(value, 1);
    case WrittenAs::count:
      break;
  }
  return rounded(value);
}

double number_of(const cycles::LogVerdict& verdict, std::string_view name) {
  for (const cycles::LogArgument& argument : verdict.arguments)
    if (argument.name == name)
      if (const double* number = std::get_if<double>(&argument.value)) return *number;
  return 0.0;
}

/// An interval, and that it is one of running where the rule counted so.
std::string interval_text(const cycles::LogVerdict& verdict, const std::string& duration, const Sentences& say) {
  if (number_of(verdict, "counts_running") <= 0.0) return duration;
  return say(OHMWRIGHT_TEXT("{duration} of running"), {{"duration", duration}});
}

/// The probability with what it means; rules that only count give none.
std::string chance_text(const cycles::LogVerdict& verdict, const Sentences& say) {
  if (verdict.outcome == Outcome::silent) return {};
  const FindingArgument chance{"chance", percent_text(verdict.probability)};
  // A rule that leaves it open gives no chance of being good: it would read like a suspicion.
  if (verdict.meaning == ProbabilityMeaning::within_limits && verdict.outcome != Outcome::undecided)
    return ' ' + say(OHMWRIGHT_TEXT("The chance that it is within its limits is {chance}."), {chance});
  if (verdict.meaning == ProbabilityMeaning::observed_if_within)
    return ' ' + say(OHMWRIGHT_TEXT("Of good ones {chance} would look like this."), {chance});
  return {};
}

/// What is said of that verdict, or null.
const VerdictWords* words_of(const cycles::LogVerdict& verdict) {
  for (const auto table : {words_of_defrosts(), words_of_running()})
    for (const VerdictWords& words : table)
      if (words.rule == verdict.rule && words.text == verdict.text) return &words;
  return nullptr;
}

}  // namespace

std::string log_verdict_text(const cycles::LogVerdict& verdict, const Sentences& say) {
  if (verdict.text == cycles::unit_in_doubt_text)
    return say(OHMWRIGHT_TEXT("Not judged: the unit of a column is in doubt."));
  const VerdictWords* words = words_of(verdict);
  if (words == nullptr) return std::string(verdict.rule) + ": " + std::string(verdict.text);
  std::vector<FindingArgument> arguments;
  for (const FilledField& field : words->fields) {
    if (field.name.empty()) continue;
    std::string text = written(number_of(verdict, field.name), field.written);
    if (field.written == WrittenAs::interval) text = interval_text(verdict, text, say);
    arguments.push_back({field.name, text});
  }
  return say(words->english, arguments) + chance_text(verdict, say);
}

std::string log_rule_title(std::string_view rule, const Sentences& say) {
  for (const RuleTitle& title : rule_titles)
    if (title.rule == rule) return say(title.english);
  return std::string(rule);
}

}  // namespace ohmwright
