#include <algorithm>
#include <array>

#include <nlohmann/json.hpp>

#include <ohmwright/document/record_values.hpp>
#include <ohmwright/document/verdict_record.hpp>

namespace ohmwright {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::array<std::string_view, 3> meanings{"none", "within-limits", "observed-if-within"};
constexpr std::array<std::string_view, 5> shapes{"normal", "rectangular", "triangular", "arcsine", "student-t"};

Json arguments_record(const FindingArguments& arguments) {
  Json record = Json::array();
  for (const FindingArgument& argument : arguments) {
    Json entry{{"name", argument.name}};
    if (const auto* quantity = std::get_if<AnyQuantity>(&argument.value))
      entry["quantity"] = quantity_record(*quantity);
    else if (const auto* number = std::get_if<double>(&argument.value))
      entry["number"] = number_record(*number);
    else
      entry["text"] = std::get<std::string>(argument.value);
    record.push_back(std::move(entry));
  }
  return record;
}

Json judged_record(const Finding& finding) {
  Json terms = Json::array();
  for (const Term& term : finding.judged->terms())
    terms.push_back({{"source", term.source}, {"standard_uncertainty", number_record(term.standard_uncertainty)}});
  return {{"value", number_record(finding.judged->value())}, {"terms", std::move(terms)}};
}

Json finding_record(const Finding& finding, const Descriptor& descriptor) {
  const RuleDescriptor& rule = descriptor.rules.at(finding.rule);
  Json record{{"rule", rule.id},
              {"outcome", name_of(finding.outcome)},
              {"text", rule.texts.at(finding.text).id},
              {"arguments", arguments_record(finding.arguments)},
              {"holds_back", finding.holds_back}};
  if (finding.measured) record["measured"] = quantity_record(*finding.measured);
  if (finding.measured_uncertainty) record["measured_uncertainty"] = number_record(*finding.measured_uncertainty);
  if (finding.limits.lower) record["lower"] = quantity_record(*finding.limits.lower);
  if (finding.limits.upper) record["upper"] = quantity_record(*finding.limits.upper);
  record["meaning"] = meanings.at(static_cast<std::size_t>(finding.meaning));
  record["probability"] = number_record(finding.probability);
  if (finding.judged) record["judged"] = judged_record(finding);
  record["judged_lower"] = number_record(finding.judged_lower);
  record["judged_upper"] = number_record(finding.judged_upper);
  return record;
}

Json advice_record(const Advice& advice, const Descriptor& descriptor) {
  Json record{{"text", descriptor.advice.at(advice.text).id}, {"arguments", arguments_record(advice.arguments)}};
  if (advice.probability_decided) record["probability_decided"] = number_record(*advice.probability_decided);
  return record;
}

/// Turns a record back into a verdict.
class VerdictReader {
 public:
  VerdictReader(const Descriptor& descriptor, const std::string& name) : descriptor_(descriptor), reader_(name) {}

  RecordedVerdict read(const ValueNode& root) {
    RecordedVerdict recorded;
    for (const ValueNode& node : list(root, "sources")) recorded.sources.push_back(source_from(node));
    source_count_ = recorded.sources.size();
    Verdict& verdict = recorded.verdict;
    verdict.outcome = outcome_from(field(root, "outcome"));
    if (const ValueNode* probability = root.find("probability_within"))
      verdict.probability_within = reader_.number(*probability);
    if (const ValueNode* drawing = root.find("drawing")) verdict.drawing = drawing_from(*drawing);
    for (const ValueNode& node : list(root, "findings")) verdict.findings.push_back(finding_from(node));
    for (const ValueNode& node : list(root, "budget"))
      verdict.budget.push_back({source_index(field(node, "source")), reader_.number(field(node, "share"))});
    for (const ValueNode& node : list(root, "advice")) verdict.advice.push_back(advice_from(node));
    recorded.names = std::move(names_);
    return recorded;
  }

 private:
  const ValueNode& field(const ValueNode& node, std::string_view name) const { return reader_.field(node, name); }
  const ValueNode::Array& list(const ValueNode& node, std::string_view name) const {
    return reader_.list(field(node, name));
  }

  Drawing drawing_from(const ValueNode& node) const {
    constexpr std::size_t most = std::size_t{1} << 53;  // whole in a double
    return {reader_.index(field(node, "seed"), most), reader_.index(field(node, "trials"), most),
            reader_.number(field(node, "standard_error"))};
  }

  Outcome outcome_from(const ValueNode& node) const {
    const std::optional<Outcome> outcome = outcome_named(reader_.text(node));
    if (!outcome) reader_.refuse(node, "an outcome");
    return *outcome;
  }

  template <class Row>
  std::uint16_t row_from(const std::vector<Row>& rows, const ValueNode& node) const {
    const std::uint16_t index = index_of(rows, reader_.text(node));
    if (index == not_found) reader_.refuse(node, "an id that the kind " + std::string(descriptor_.id) + " has");
    return index;
  }

  template <std::size_t count>
  std::size_t word_from(const std::array<std::string_view, count>& words, const ValueNode& node) const {
    const auto found = std::find(words.begin(), words.end(), reader_.text(node));
    if (found == words.end()) reader_.refuse(node, "another word");
    return static_cast<std::size_t>(found - words.begin());
  }

  SourceIndex source_index(const ValueNode& node) const {
    if (source_count_ == 0) reader_.refuse(node, "no source: the record lists none");
    return static_cast<SourceIndex>(reader_.index(node, source_count_ - 1));
  }

  ErrorSource source_from(const ValueNode& node) const {
    return {reader_.text(field(node, "id")), reader_.text(field(node, "of")),
            static_cast<Shape>(word_from(shapes, field(node, "shape"))),
            reader_.number(field(node, "degrees_of_freedom"))};
  }

  FindingArguments arguments_from(const ValueNode& node) {
    FindingArguments arguments;
    for (const ValueNode& entry : list(node, "arguments")) {
      if (arguments.size() == FindingArguments::static_capacity) reader_.refuse(entry, "no more arguments");
      const std::string_view name = names_->emplace_back(reader_.text(field(entry, "name")));
      if (const ValueNode* quantity = entry.find("quantity"))
        arguments.push_back({name, reader_.quantity(*quantity)});
      else if (const ValueNode* number = entry.find("number"))
        arguments.push_back({name, reader_.number(*number)});
      else
        arguments.push_back({name, reader_.text(field(entry, "text"))});
    }
    return arguments;
  }

  Estimate judged_from(const ValueNode& node) const {
    Estimate estimate(reader_.number(field(node, "value")));
    const ValueNode::Array& terms = list(node, "terms");
    if (terms.size() > Estimate::max_terms) reader_.refuse(node, "fewer terms");
    for (const ValueNode& term : terms)
      estimate.add_term(source_index(field(term, "source")), reader_.number(field(term, "standard_uncertainty")));
    return estimate;
  }

  Finding finding_from(const ValueNode& node) {
    Finding finding;
    finding.rule = row_from(descriptor_.rules, field(node, "rule"));
    finding.outcome = outcome_from(field(node, "outcome"));
    finding.text = row_from(descriptor_.rules[finding.rule].texts, field(node, "text"));
    finding.arguments = arguments_from(node);
    finding.holds_back = reader_.flag(field(node, "holds_back"));
    if (const ValueNode* measured = node.find("measured")) finding.measured = reader_.quantity(*measured);
    if (const ValueNode* u = node.find("measured_uncertainty")) finding.measured_uncertainty = reader_.number(*u);
    if (const ValueNode* lower = node.find("lower")) finding.limits.lower = reader_.quantity(*lower);
    if (const ValueNode* upper = node.find("upper")) finding.limits.upper = reader_.quantity(*upper);
    finding.meaning = static_cast<ProbabilityMeaning>(word_from(meanings, field(node, "meaning")));
    finding.probability = reader_.number(field(node, "probability"));
    if (const ValueNode* judged = node.find("judged")) finding.judged = judged_from(*judged);
    finding.judged_lower = reader_.number(field(node, "judged_lower"));
    finding.judged_upper = reader_.number(field(node, "judged_upper"));
    return finding;
  }

  Advice advice_from(const ValueNode& node) {
    Advice advice;
    advice.text = row_from(descriptor_.advice, field(node, "text"));
    advice.arguments = arguments_from(node);
    if (const ValueNode* decided = node.find("probability_decided"))
      advice.probability_decided = reader_.number(*decided);
    return advice;
  }

  const Descriptor& descriptor_;
  RecordReader reader_;
  std::size_t source_count_ = 0;
  // A deque: its texts stay where they are while it grows.
  std::shared_ptr<std::deque<std::string>> names_ = std::make_shared<std::deque<std::string>>();
};

}  // namespace

std::string verdict_record(const Verdict& verdict, const Descriptor& descriptor, std::span<const ErrorSource> sources) {
  Json record{{"kind", descriptor.id}, {"outcome", name_of(verdict.outcome)}};
  if (verdict.probability_within) record["probability_within"] = number_record(*verdict.probability_within);
  if (verdict.drawing)
    record["drawing"] = {{"seed", verdict.drawing->seed},
                         {"trials", verdict.drawing->trials},
                         {"standard_error", number_record(verdict.drawing->standard_error)}};
  for (const char* name : {"findings", "budget", "advice", "sources"}) record[name] = Json::array();
  for (const Finding& finding : verdict.findings) record["findings"].push_back(finding_record(finding, descriptor));
  for (const BudgetShare& share : verdict.budget)
    record["budget"].push_back({{"source", share.source}, {"share", number_record(share.share)}});
  for (const Advice& advice : verdict.advice) record["advice"].push_back(advice_record(advice, descriptor));
  for (const ErrorSource& source : sources)
    record["sources"].push_back({{"id", source.id},
                                 {"of", source.of},
                                 {"shape", shapes.at(static_cast<std::size_t>(source.shape))},
                                 {"degrees_of_freedom", number_record(source.degrees_of_freedom)}});
  return record_text(record);
}

RecordedVerdict verdict_from_record(std::string_view record, const Descriptor& descriptor, const std::string& name) {
  return VerdictReader(descriptor, name).read(parse_record(record, name).root);
}

}  // namespace ohmwright
