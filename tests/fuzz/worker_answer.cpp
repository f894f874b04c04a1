// Reads any bytes as what a worker process answers: the first byte says to which question, the rest is the line. What
// is accepted passes the checks of the host and is used as the program would; what is refused is told with text that a
// terminal takes. Nothing else may happen: the line is written by whoever wrote the plugin.
#include <cstdint>

#include <nlohmann/json.hpp>

#include <ohmwright/component/judgement.hpp>
#include <ohmwright/plugin/descriptor_check.hpp>
#include <ohmwright/plugin/finding_check.hpp>
#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/plugin/model_check.hpp>
#include <ohmwright/plugin/worker/answer_line.hpp>
#include <ohmwright/plugin/worker/wire.hpp>
#include <ohmwright/quantity/stated_value.hpp>

#include "document_fuzz.hpp"

namespace {

using namespace ohmwright;

/// A kind of one rule, to which findings may belong.
const Descriptor& small_kind() {
  static const Descriptor descriptor = [] {
    Descriptor made;
    made.id = "small";
    made.terminals = {"a", "b"};
    made.measurands = {{"resistance", "Resistance", Dimension::resistance, "ohm", false}};
    constexpr unsigned any =
        outcome_bit(Outcome::within_limits) | outcome_bit(Outcome::out_of_limits) | can_be_undecided;
    made.rules = {{"rule", "A rule", true, any, "made up", {{"a", "It reads {value}"}, {"b", "It reads nothing"}}}};
    made.advice = {{"advice", "Read it again", {}}};
    return made;
  }();
  return descriptor;
}

void take_findings(const nlohmann::json& answer, TextPool& texts) {
  const Evidence evidence(
      small_kind(), {},
      MeterSet({Meter{.name = "m",
                      .title = "M",
                      .source = "none",
                      .functions = {},
                      .lead_resistance = parse_stated_value("0.2 ohm +- 0.05 ohm", Dimension::resistance)}}));
  Findings findings;
  from_wire(answer.at("findings"), findings, texts);
  if (misuse_of_findings(findings, small_kind(), evidence, {})) return;
  (void)conclude(small_kind(), evidence, {}, std::move(findings));
}

void take_descriptor(const nlohmann::json& answer, TextPool& texts) {
  Descriptor descriptor;
  from_wire(answer.at("descriptors").at(0), descriptor, texts);
  for (const std::string& problem : descriptor_problems(descriptor, {"small", {}})) fuzz::require_printable(problem);
}

void require_told(const std::optional<std::string>& misuse) {
  if (misuse) fuzz::require_printable(*misuse);
}

void take(unsigned question, const nlohmann::json& answer) {
  TextPool texts;
  if (question == 'd') take_descriptor(answer, texts);
  if (question == 'j') take_findings(answer, texts);
  if (question == 'm') {
    std::vector<Element> elements;
    from_wire(answer.at("elements"), elements, texts);
    require_told(misuse_of_elements(elements, small_kind()));
  }
  if (question == 'e') {
    Expectation expectation{AnyQuantity(Dimension::ratio, 0.0), {}};
    from_wire(answer.at("expected").at(0), expectation, texts);
    require_told(misuse_of_expectation(expectation, small_kind().measurands[0]));
  }
  if (question == 'f') {
    Fitting fitting;
    from_wire(answer.at("fitting"), fitting, texts);
    require_told(misuse_of_fitting(fitting, 3));
  }
  if (question == 'c') {
    std::vector<EquivalenceFinding> findings;
    from_wire(answer.at("findings"), findings, texts);
    require_told(misuse_of_comparison(findings));
  }
  if (question == 'p') {
    std::vector<Problem> problems;
    from_wire(answer.at("problems"), problems, texts);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const auto answer = parsed_answer({reinterpret_cast<const char*>(data) + 1, size - 1});
  if (!answer) return 0;
  if (const auto thrown = guarded([&] { take(data[0], *answer); })) fuzz::require_printable(*thrown);
  return 0;
}
