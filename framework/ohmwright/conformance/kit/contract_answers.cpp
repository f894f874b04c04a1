// Promises about the answer to the readings of a case as they are.

#include <algorithm>
#include <string>

#include <ohmwright/conformance/forked_judge.hpp>
#include <ohmwright/conformance/kit/contract_case.hpp>
#include <ohmwright/document/verdict_record.hpp>

namespace ohmwright {

namespace {

/// Names of the fields of a sentence pattern: "{measured}"; "{{" is a brace.
std::vector<std::string> fields_in(std::string_view pattern) {
  std::vector<std::string> names;
  for (std::size_t at = 0; at < pattern.size(); ++at) {
    if (pattern[at] != '{') continue;
    if (at + 1 < pattern.size() && pattern[at + 1] == '{') {
      ++at;
      continue;
    }
    const std::size_t close = pattern.find('}', at);
    if (close == std::string_view::npos) break;
    names.emplace_back(pattern.substr(at + 1, close - at - 1));
  }
  return names;
}

template <class Say>
void expect_fields(std::string_view pattern, const FindingArguments& arguments, const std::string& where, Say say) {
  for (const std::string& name : fields_in(pattern)) {
    const bool given = std::any_of(arguments.begin(), arguments.end(),
                                   [&](const FindingArgument& argument) { return argument.name == name; });
    if (!given) say(where + " gets no {" + name + "}; push it to its arguments");
  }
}

}  // namespace

std::vector<std::string> breaches_of_repeatability(const KindCases& tried) {
  return look_at_cases(
      tried, [&](const VectorCase& vector, const PreparedVector& prepared, const Verdict& verdict, auto say) {
        const auto again = judged_case(tried.kind, prepared, vector.readings);
        if (const auto* second = std::get_if<Verdict>(&again); second == nullptr || !equal(verdict, *second))
          say("judged again it says something else; a part may remember nothing");
      });
}

std::vector<std::string> breaches_of_records(const KindCases& tried) {
  return look_at_cases(
      tried, [&](const VectorCase& vector, const PreparedVector& prepared, const Verdict& verdict, auto say) {
        try {
          const RecordedVerdict there = judge_in_child(*prepared.part, tried.kind.descriptor(), vector.readings,
                                                       prepared.meters, prepared.settings);
          if (!equal(verdict, there.verdict))
            say("in a child process it says something else; judge by what Evidence holds, and by nothing else");
        } catch (const Error& error) {
          say(error.what());
        }
      });
}

std::vector<std::string> breaches_of_reasons(const KindCases& tried) {
  return look_at_cases(
      tried, [](const VectorCase& /*vector*/, const PreparedVector& /*prepared*/, const Verdict& verdict, auto say) {
        const bool spoke = std::any_of(verdict.findings.begin(), verdict.findings.end(),
                                       [&](const Finding& finding) { return finding.outcome == verdict.outcome; });
        if (verdict.findings.empty() || (!spoke && verdict.outcome != Outcome::undecided))
          say("it is " + std::string(name_of(verdict.outcome)) + " and no rule says so");
      });
}

std::vector<std::string> breaches_of_speaking(const KindCases& tried) {
  const std::vector<RuleDescriptor>& rules = tried.kind.descriptor().rules;
  return look_at_cases(
      tried, [&](const VectorCase& /*vector*/, const PreparedVector& /*prepared*/, const Verdict& verdict, auto say) {
        for (std::size_t rule = 0; rule < rules.size(); ++rule) {
          const bool found = std::any_of(verdict.findings.begin(), verdict.findings.end(),
                                         [&](const Finding& finding) { return finding.rule == rule; });
          if (!found)
            say("the rule " + std::string(rules[rule].id) +
                " says nothing; add a silent finding with a text that says why");
        }
      });
}

std::vector<std::string> breaches_of_fields(const KindCases& tried) {
  const Descriptor& descriptor = tried.kind.descriptor();
  return look_at_cases(
      tried, [&](const VectorCase& /*vector*/, const PreparedVector& /*prepared*/, const Verdict& verdict, auto say) {
        for (const Finding& finding : verdict.findings) {
          const RuleDescriptor& rule = descriptor.rules[finding.rule];
          const TextEntry& text = rule.texts.at(finding.text);
          expect_fields(text.english, finding.arguments,
                        "the text " + std::string(text.id) + " of the rule " + std::string(rule.id), say);
        }
        for (const Advice& advice : verdict.advice)
          expect_fields(descriptor.advice.at(advice.text).english, advice.arguments,
                        "the advice " + std::string(descriptor.advice[advice.text].id), say);
      });
}

std::vector<std::string> breaches_of_nothing_read(const KindCases& tried) {
  return look_at_cases(
      tried, [&](const VectorCase& /*vector*/, const PreparedVector& prepared, const Verdict& /*verdict*/, auto say) {
        const Outcome outcome = outcome_of(tried, prepared, {});
        if (outcome != Outcome::undecided)
          say("without a reading it is " + std::string(name_of(outcome)) + "; a rule must have something to go on");
      });
}

}  // namespace ohmwright
