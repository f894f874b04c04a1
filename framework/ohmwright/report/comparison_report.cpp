#include <algorithm>
#include <variant>

#include <nlohmann/json.hpp>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/comparison_report.hpp>

namespace ohmwright {

namespace {

using Json = nlohmann::ordered_json;

std::string answer(const ComparisonReport& report, const Sentences& say) {
  const FindingArgument original{"original", report.original};
  const FindingArgument candidate{"candidate", report.candidate};
  switch (equivalence(report.findings)) {
    case Outcome::within_limits:
      return say(OHMWRIGHT_TEXT("EQUIVALENT: {candidate} can stand in for {original}"), {candidate, original});
    case Outcome::out_of_limits:
      return say(OHMWRIGHT_TEXT("NOT EQUIVALENT: {candidate} cannot stand in for {original}"), {candidate, original});
    default:
      return say(OHMWRIGHT_TEXT("CAN'T TELL YET: whether {candidate} can stand in for {original}"),
                 {candidate, original});
  }
}

std::string sentence(const ComparisonReport& report, const EquivalenceFinding& finding, const Sentences& say) {
  const std::string_view domain = report.descriptor.text_domain;
  FindingArguments arguments = finding.arguments;
  for (FindingArgument& argument : arguments)  // the title of a figure or a rule is a text of the kind, too
    if (auto* title = std::get_if<std::string>(&argument.value); title != nullptr && argument.name == "what")
      *title = say.in_domain(domain, *title);
  return say.in_domain(domain, finding.text.english, view(arguments));
}

}  // namespace

Outcome equivalence(std::span<const EquivalenceFinding> findings) {
  const auto any = [findings](Outcome outcome) {
    return std::any_of(findings.begin(), findings.end(),
                       [outcome](const EquivalenceFinding& finding) { return finding.outcome == outcome; });
  };
  if (any(Outcome::out_of_limits)) return Outcome::out_of_limits;
  return any(Outcome::within_limits) && !any(Outcome::undecided) ? Outcome::within_limits : Outcome::undecided;
}

void silence_what_is_not_stated(std::span<EquivalenceFinding> findings) {
  for (EquivalenceFinding& finding : findings)
    if (finding.outcome == Outcome::undecided && !finding.is_of_any_part) finding.outcome = Outcome::silent;
}

Outcome equivalence_of_namesakes(std::span<const EquivalenceFinding> findings) {
  Outcome outcome = findings.empty() ? Outcome::undecided : Outcome::within_limits;
  for (const EquivalenceFinding& finding : findings) {
    if (finding.outcome == Outcome::out_of_limits) return Outcome::out_of_limits;
    if (finding.is_of_any_part) outcome = Outcome::undecided;
  }
  return outcome;
}

std::string comparison_page(const ComparisonReport& report, const Sentences& say, const PageStyle& style) {
  const int width = std::clamp(style.width, 20, 100);
  std::string page = paragraph(answer(report, say), width);
  const auto section = [&](Outcome outcome, std::string_view title) {
    bool first = true;
    for (const EquivalenceFinding& finding : report.findings) {
      if (finding.outcome != outcome) continue;
      if (first) page += '\n' + say(title) + '\n';
      first = false;
      page += paragraph(sentence(report, finding, say), width, "  - ", "    ");
    }
  };
  section(Outcome::out_of_limits, OHMWRIGHT_TEXT("What differs"));
  section(Outcome::undecided, OHMWRIGHT_TEXT("What is in doubt"));
  section(Outcome::within_limits, OHMWRIGHT_TEXT("What is the same, or near enough"));
  section(Outcome::silent, OHMWRIGHT_TEXT("Not compared"));
  return page;
}

std::string comparison_json(const ComparisonReport& report, const Sentences& say) {
  Json json{{"kind", report.descriptor.id},
            {"original", report.original},
            {"candidate", report.candidate},
            {"verdict", name_of(equivalence(report.findings))},
            {"reasons", Json::array()}};
  for (const EquivalenceFinding& finding : report.findings) {
    Json reason{{"property", finding.text.id}, {"verdict", name_of(finding.outcome)}};
    reason["text"] = with_plain_spaces(sentence(report, finding, say));
    json["reasons"].push_back(std::move(reason));
  }
  return json.dump(2) + '\n';
}

}  // namespace ohmwright
