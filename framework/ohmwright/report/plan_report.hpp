#pragma once

#include <optional>
#include <string>
#include <vector>

#include <ohmwright/locate/plan.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

/// A plan with all that its page needs. Refers to what the caller keeps.
struct PlanReport {
  const locate::Plan& plan;
  const locate::FaultList& faults;
  double lead_resistance = 0.0;  ///< of the meter [ohm]: readings are shown with it
  locate::PlanSettings settings;
  bool allow_live = false;
  bool cautions_in_full = false;
};

/// One answer of a step in words.
struct PlanAnswerContent {
  std::string answer;    ///< "27 Ω to 38 Ω", "OL", "found"
  std::string chance;    ///< "30 %"
  std::string then;      ///< "go to 3", or how it ends
  std::size_t next = 0;  ///< number of the step that follows; 0 at an end
};

/// One step in words.
struct PlanStepContent {
  std::size_t number = 1;
  std::string title;
  std::vector<std::string> before;          ///< what comes first: power, covers, leads to lift, set-up
  std::optional<std::string> way_out;       ///< how the set-up is ended once all is read in it
  std::vector<std::string> brief_cautions;  ///< that no step on the way here showed
  std::vector<PlanAnswerContent> answers;
};

/// What the page of a plan says, before it is laid out.
struct PlanContent {
  std::vector<std::string> cautions;  ///< of all steps, in full
  std::vector<std::string> brief_cautions;
  std::string headline;
  std::vector<std::string> explanation;
  std::vector<PlanStepContent> steps;
};

PlanContent plan_content(const PlanReport& report, const Sentences& say);

/// The plan as a page of text: numbered steps, each with its answers and where they lead.
std::string plan_page(const PlanReport& report, const Sentences& say, const PageStyle& style);

/// As a whole HTML page.
std::string plan_html(const PlanReport& report, const Sentences& say);

/// For programs (schemas/plan.schema.json), SI units, indented, with a final newline.
std::string plan_json(const PlanReport& report, const Sentences& say);

}  // namespace ohmwright
