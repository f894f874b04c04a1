#include <array>
#include <bit>
#include <cstdint>
#include <string_view>

#include <fmt/compile.h>

#include <ohmwright/batch/record_text.hpp>
#include <ohmwright/batch/record_writer.hpp>

namespace ohmwright::batch {

namespace {

template <class Name>
void add_field(RecordText& record, const Name& name_with_comma, std::string_view text) {
  record.add(name_with_comma);
  record.add_json(text);
}

void add_head(RecordText& record, const RecordHead& head) {
  add_field(record, R"({"file":)", head.place.file);
  record.add(R"(,"line":)");
  record.add_number(head.place.line);
  if (!head.id.empty()) add_field(record, R"(,"id":)", head.id);
  if (!head.lot.empty()) add_field(record, R"(,"lot":)", head.lot);
}

void add_limits(RecordText& record, const Limits& limits) {
  record.add(R"(,"limits":{)");
  if (limits.lower) {
    record.add(R"("lower":)");
    record.add_number(limits.lower->value_in_si());
    record.add(",");
  }
  if (limits.upper) {
    record.add(R"("upper":)");
    record.add_number(limits.upper->value_in_si());
    record.add(",");
  }
  const std::optional<AnyQuantity>& either = limits.lower ? limits.lower : limits.upper;
  record.add(R"("unit":")");
  record.add(si_unit_of(either->dimension()));
  record.add("\"}");
}

/// A probability and its digits: that of the verdict is that of the only essential rule in nearly every record, and
/// digits are the dearest part of one.
class WrittenProbability {
 public:
  explicit WrittenProbability(double probability)
      : bits_(std::bit_cast<std::uint64_t>(probability)),
        length_(static_cast<std::size_t>(fmt::format_to(digits_.data(), FMT_COMPILE("{}"), probability) -
                                         digits_.data())) {}

  bool is_of(double probability) const { return std::bit_cast<std::uint64_t>(probability) == bits_; }
  std::string_view digits() const { return {digits_.data(), length_}; }

 private:
  std::uint64_t bits_;
  std::array<char, 32> digits_{};
  std::size_t length_;
};

void add_probability(RecordText& record, double probability, const std::optional<WrittenProbability>& written) {
  if (written && written->is_of(probability))
    record.add(written->digits());
  else
    record.add_number(probability);
}

void add_reason(RecordText& record, const Descriptor& descriptor, const Finding& finding,
                const std::optional<WrittenProbability>& of_verdict) {
  const RuleDescriptor& rule = descriptor.rules[finding.rule];
  record.add(R"({"rule":")");
  record.add(rule.id);  // ids hold nothing to escape
  record.add(R"(","verdict":")");
  record.add(name_of(finding.outcome));
  record.add("\"");
  if (finding.measured) {
    record.add(R"(,"measured":{"value":)");
    record.add_number(finding.measured->value_in_si());
    record.add(R"(,"unit":")");
    record.add(si_unit_of(finding.measured->dimension()));
    record.add("\"");
    if (finding.measured_uncertainty) {
      record.add(R"(,"standard_uncertainty":)");
      record.add_number(*finding.measured_uncertainty);
    }
    record.add("}");
  }
  if (finding.limits.lower || finding.limits.upper) add_limits(record, finding.limits);
  if (finding.meaning != ProbabilityMeaning::none) {
    if (finding.meaning == ProbabilityMeaning::within_limits)
      record.add(R"(,"probability_within":)");
    else
      record.add(R"(,"probability_observed_if_within":)");
    add_probability(record, finding.probability, of_verdict);
  }
  record.add(R"(,"text_id":")");
  record.add(rule.texts[finding.text].id);
  record.add("\"}");
}

}  // namespace

void append_json_text(std::string& out, std::string_view text) {
  RecordText json(out);
  json.add_json(text);
  json.hand_over();
}

void append_verdict_record(std::string& out, const RecordHead& head, const Descriptor& descriptor,
                           std::string_view part, const Verdict& verdict) {
  RecordText record(out);
  add_head(record, head);
  record.add(R"(,"kind":")");
  record.add(descriptor.id);
  record.add("\"");
  add_field(record, R"(,"part":)", part);
  record.add(R"(,"verdict":")");
  record.add(name_of(verdict.outcome));
  record.add(R"(","probability_within":)");
  std::optional<WrittenProbability> probability;
  if (verdict.probability_within) probability.emplace(*verdict.probability_within);
  if (probability)
    record.add(probability->digits());
  else
    record.add("null");
  record.add(R"(,"reasons":[)");
  bool first = true;
  for (const Finding& finding : verdict.findings) {
    if (finding.outcome == Outcome::silent) continue;
    if (!first) record.add(",");
    first = false;
    add_reason(record, descriptor, finding, probability);
  }
  record.add(R"(],"advice":[)");
  for (std::size_t i = 0; i < verdict.advice.size(); ++i) {
    if (i > 0) record.add(",");
    record.add("\"");
    record.add(descriptor.advice[verdict.advice[i].text].id);
    record.add("\"");
  }
  record.add("]}\n");
  record.hand_over();
}

void append_refusal_record(std::string& out, const RecordHead& head, std::string_view error) {
  RecordText record(out);
  add_head(record, head);
  add_field(record, R"(,"error":)", error);
  record.add("}\n");
  record.hand_over();
}

}  // namespace ohmwright::batch
