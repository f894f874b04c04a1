#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/locate/standing.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

/// A search for a fault with all that its page needs. Refers to what the caller keeps.
struct LocateReport {
  locate::Reasoner& reasoner;  ///< asked what the readings to come would show
  const locate::Diagnosis& diagnosis;
  const locate::Standing& standing;
  std::span<const locate::TakenReading> readings;
  const locate::Signs& signs;
  std::span<const locate::Step> steps;  ///< best first
  const locate::WorkState& work;
  locate::NextStepSettings settings;
  locate::PriorSettings priors;
  std::string meter_title;
  bool cautions_in_full = false;
  bool asks_temperatures = false;  ///< a temperature that is lacking is the next step: where no menu asks for it
};

/// A possible fault and its probability.
struct PossibleFaultLine {
  std::string label;
  double probability = 0.0;
};

/// What a reading to come would show, if that fault were there.
struct ExpectedReading {
  std::string fault;
  std::string shows;  ///< "31.9 Ω", "OL", "any ghost voltage"
};

/// The next step in words.
struct StepContent {
  std::string title;
  std::vector<std::string> cautions;  ///< of this step, in few words
  std::vector<std::string> before;    ///< what comes first: covers, leads to lift, set-up
  std::vector<ExpectedReading> expected;
  std::optional<std::string> way_out;  ///< how the set-up is ended once all is read in it
};

/// What the page of a search says, in the reader's language, before it is laid out.
struct LocateContent {
  std::vector<std::string> cautions;  ///< of all work on the appliance and of the next step
  std::vector<std::string> brief_cautions;
  std::string headline;
  std::vector<std::string> explanation;
  std::vector<PossibleFaultLine> possible;
  double others = 0.0;  ///< probability of all that is not listed; 0 where it is worth no line
  std::vector<std::string> evidence;
  std::vector<std::string> remarks;  ///< what may mislead in the readings
  std::optional<StepContent> next;
  std::vector<std::string> instead;     ///< other steps, one line each
  std::vector<std::string> afterwards;  ///< before and after the part is replaced
  std::vector<std::string> assumed;
};

LocateContent locate_content(const LocateReport& report, const Sentences& say);

/// The search as a page of text.
std::string locate_page(const LocateReport& report, const Sentences& say, const PageStyle& style);

/// As a whole HTML page; `drawing` is the circuit as SVG, empty for none; `made_with` stands at its foot.
std::string locate_html(const LocateReport& report, const Sentences& say, std::string_view drawing,
                        std::string_view made_with = {});

/// For programs (schemas/locate.schema.json), SI units, indented, with a final newline.
std::string locate_json(const LocateReport& report, const Sentences& say);

/// A symptom in the reader's language: the framework's words, else the appliance's own.
std::string symptom_text(const Appliance& appliance, const std::string& symptom, const Sentences& say);

/// "Defrost heater: element open", or with several parts "…, and …": the likeliest candidate of an answer.
std::string answer_label(const locate::FaultList& faults, const locate::Diagnosis& diagnosis,
                         const locate::AnswerSet& answer, const Sentences& say);

}  // namespace ohmwright
