#include <array>
#include <iterator>
#include <string_view>

#include <fmt/compile.h>

#include <ohmwright/batch/record_writer.hpp>

namespace ohmwright::batch {

namespace {

using std::string_view_literals::operator""sv;  // their lengths are known where they are written

bool needs_escape(char c) { return static_cast<unsigned char>(c) < 0x20 || c == '"' || c == '\\'; }

/// Shortest form that reads back to the number.
template <class Number>
void append_number(std::string& out, Number number) {
  std::array<char, 32> digits{};
  const char* const end = fmt::format_to(digits.data(), FMT_COMPILE("{}"), number);
  out.append(digits.data(), static_cast<std::size_t>(end - digits.data()));
}

void append_field(std::string& out, std::string_view name_with_comma, std::string_view text) {
  out += name_with_comma;
  append_json_text(out, text);
}

void append_head(std::string& out, const RecordHead& head) {
  append_field(out, R"({"file":)", head.place.file);
  out += R"(,"line":)"sv;
  append_number(out, head.place.line);
  if (!head.id.empty()) append_field(out, R"(,"id":)", head.id);
  if (!head.lot.empty()) append_field(out, R"(,"lot":)", head.lot);
}

void append_limits(std::string& out, const Limits& limits) {
  out += R"(,"limits":{)"sv;
  if (limits.lower) {
    out += R"("lower":)"sv;
    append_number(out, limits.lower->value_in_si());
    out += ',';
  }
  if (limits.upper) {
    out += R"("upper":)"sv;
    append_number(out, limits.upper->value_in_si());
    out += ',';
  }
  const std::optional<AnyQuantity>& either = limits.lower ? limits.lower : limits.upper;
  out += R"("unit":")"sv;
  out += si_unit_of(either->dimension());
  out += "\"}"sv;
}

void append_reason(std::string& out, const Descriptor& descriptor, const Finding& finding) {
  const RuleDescriptor& rule = descriptor.rules[finding.rule];
  out += R"({"rule":")"sv;
  out += rule.id;  // ids hold nothing to escape
  out += R"(","verdict":")"sv;
  out += name_of(finding.outcome);
  out += '"';
  if (finding.measured) {
    out += R"(,"measured":{"value":)"sv;
    append_number(out, finding.measured->value_in_si());
    out += R"(,"unit":")"sv;
    out += si_unit_of(finding.measured->dimension());
    out += '"';
    if (finding.measured_uncertainty) {
      out += R"(,"standard_uncertainty":)"sv;
      append_number(out, *finding.measured_uncertainty);
    }
    out += '}';
  }
  if (finding.limits.lower || finding.limits.upper) append_limits(out, finding.limits);
  if (finding.meaning != ProbabilityMeaning::none) {
    out += finding.meaning == ProbabilityMeaning::within_limits ? R"(,"probability_within":)"sv
                                                                : R"(,"probability_observed_if_within":)"sv;
    append_number(out, finding.probability);
  }
  out += R"(,"text_id":")"sv;
  out += rule.texts[finding.text].id;
  out += "\"}"sv;
}

}  // namespace

void append_json_text(std::string& out, std::string_view text) {
  out += '"';
  std::size_t plain = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (!needs_escape(text[i])) continue;
    out.append(text, plain, i - plain);
    plain = i + 1;
    if (text[i] == '"' || text[i] == '\\')
      (out += '\\') += text[i];
    else
      fmt::format_to(std::back_inserter(out), "\\u{:04x}", static_cast<unsigned>(text[i]));
  }
  out.append(text, plain);
  out += '"';
}

void append_verdict_record(std::string& out, const RecordHead& head, const Descriptor& descriptor,
                           std::string_view part, const Verdict& verdict) {
  append_head(out, head);
  out += R"(,"kind":")"sv;
  out += descriptor.id;
  out += '"';
  append_field(out, R"(,"part":)", part);
  out += R"(,"verdict":")"sv;
  out += name_of(verdict.outcome);
  out += R"(","probability_within":)"sv;
  if (verdict.probability_within)
    append_number(out, *verdict.probability_within);
  else
    out += "null"sv;
  out += R"(,"reasons":[)"sv;
  bool first = true;
  for (const Finding& finding : verdict.findings) {
    if (finding.outcome == Outcome::silent) continue;
    if (!first) out += ',';
    first = false;
    append_reason(out, descriptor, finding);
  }
  out += R"(],"advice":[)"sv;
  for (std::size_t i = 0; i < verdict.advice.size(); ++i) {
    out += i == 0 ? "\""sv : ",\""sv;
    out += descriptor.advice[verdict.advice[i].text].id;
    out += '"';
  }
  out += "]}\n"sv;
}

void append_refusal_record(std::string& out, const RecordHead& head, std::string_view error) {
  append_head(out, head);
  append_field(out, R"(,"error":)", error);
  out += "}\n"sv;
}

}  // namespace ohmwright::batch
