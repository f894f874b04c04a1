#include "vector_cases.hpp"

#include <ohmwright/conformance/vector_check.hpp>
#include <ohmwright/plugin/guarded_judge.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/print.hpp>
#include <ohmwright/report/labels.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/reading_lines.hpp>
#include <ohmwright/report/sentences.hpp>
#include <ohmwright/report/verdict_report.hpp>

namespace ohmwright::cli {

namespace {

/// A case judged, with all that its pages refer to.
class JudgedCase {
 public:
  JudgedCase(const LoadedKind& kind, const VectorCase& vector, const MeterSet& meters)
      : prepared_(prepare_vector(kind, vector, meters)),
        evidence_(kind.descriptor(), vector.readings, prepared_.meters),
        judged_(judge_guarded(*prepared_.part, kind.descriptor(), evidence_, prepared_.settings)) {
    if (const auto* failed = std::get_if<NotJudged>(&judged_))
      throw Error(ErrorCategory::plugin, vector.id + ": " + failed->text);
  }

  VerdictReport report(const LoadedKind& kind, const VectorCase& vector) const {
    return {.descriptor = kind.descriptor(),
            .verdict = std::get<Verdict>(judged_),
            .evidence = evidence_,
            .readings = vector.readings,
            .confidence = prepared_.settings.confidence,
            .part_name = vector.ratings_name,
            .part_title = vector.ratings_name,
            .meter_title = prepared_.meters.named("").title};
  }

 private:
  PreparedVector prepared_;
  Evidence evidence_;
  std::variant<Verdict, NotJudged> judged_;
};

/// The words and figures below a node, one line each: "voltage: 120 V".
void list_figures(const ValueNode& node, const std::string& name, std::vector<std::string>& lines) {
  if (const std::string* text = node.text()) lines.push_back(name + ": " + *text);
  if (const double* number = node.number()) lines.push_back(name + ": " + exact_text({Dimension::ratio, *number}));
  if (const bool* flag = node.flag()) lines.push_back(name + ": " + (*flag ? "yes" : "no"));
  if (const ValueNode::Array* items = node.array())
    for (std::size_t i = 0; i < items->size(); ++i)
      list_figures((*items)[i], name + ' ' + std::to_string(i + 1), lines);
  if (const ValueNode::Members* members = node.members())
    for (const auto& [key, member] : *members) list_figures(member, name.empty() ? key : name + ", " + key, lines);
}

std::vector<std::string> what_is_known(const VectorCase& vector, const Sentences& say) {
  std::vector<std::string> lines;
  if (!vector.ratings_name.empty())
    lines.push_back(say(OHMWRIGHT_TEXT("ratings: {name}"), {{"name", vector.ratings_name}}));
  if (vector.ratings != nullptr) list_figures(*vector.ratings, "", lines);
  if (lines.empty()) lines.push_back(say(OHMWRIGHT_TEXT("nothing")));
  return lines;
}

}  // namespace

std::string case_question(const LoadedKind& kind, const VectorCase& vector, const MeterSet& meters,
                          const PageStyle& style) {
  const Sentences say{UnitPreferences{}};
  const JudgedCase judged(kind, vector, meters);
  PageLayout page(style);
  page.block(say.in_domain(kind.descriptor().text_domain, kind.descriptor().title));  // a case's title may tell
  page.section(say(OHMWRIGHT_TEXT("What is known of the part")), what_is_known(vector, say));
  page.section(say(OHMWRIGHT_TEXT("Readings")),
               reading_lines(judged.report(kind, vector), say, Audience::who_is_handed_the_page));
  page.blank_line();
  page.block(
      say(OHMWRIGHT_TEXT("In spec, out of spec, or can't it be told yet? Why, and what would you do next? "
                         "(--answer)")));
  return page.take();
}

std::string case_answer(const LoadedKind& kind, const VectorCase& vector, const MeterSet& meters,
                        const PageStyle& style) {
  const Sentences say{UnitPreferences{}};
  const JudgedCase judged(kind, vector, meters);
  const VerdictReport report = judged.report(kind, vector);
  PageLayout expected(style);
  expected.section(say(OHMWRIGHT_TEXT("What the case expects")),
                   {vector.title, outcome_label(vector.verdict, say),
                    say(OHMWRIGHT_TEXT("from: {source}"), {{"source", vector.source}})});
  return verdict_page(report, say, style) + expected.take();
}

}  // namespace ohmwright::cli
