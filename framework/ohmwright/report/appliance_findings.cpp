#include <algorithm>
#include <array>

#include <nlohmann/json.hpp>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/appliance_report.hpp>
#include <ohmwright/report/page_layout.hpp>

namespace ohmwright {

namespace {

using FindingForm = ApplianceFinding::Form;

/// In the order of `ApplianceFinding::Form`.
constexpr std::array<std::string_view, 8> finding_ids{"loose-node",   "supply-unconnected", "joined-ends",
                                                      "same-place",   "reads-nothing",      "unreached-part",
                                                      "unseen-fault", "never-told-apart"};

std::string fault_words(const Appliance& appliance, const PartFault& fault, const Sentences& say) {
  const PlacedPart& part = appliance.parts[fault.part];
  const Descriptor& descriptor = part.kind->descriptor();
  return say(OHMWRIGHT_TEXT("{part}: {fault}"),
             {{"part", part.title},
              {"fault", say.in_domain(descriptor.text_domain, descriptor.fault_modes[fault.fault].title)}});
}

/// "heater.open"
std::string fault_id(const Appliance& appliance, const PartFault& fault) {
  const PlacedPart& part = appliance.parts[fault.part];
  return part.id + "." + std::string(part.kind->descriptor().fault_modes[fault.fault].id);
}

std::string loose_node_text(const Appliance& appliance, std::size_t node, const Sentences& say) {
  for (const PlacedPart& part : appliance.parts)
    for (std::size_t i = 0; i < part.nodes.size(); ++i)
      if (part.nodes[i] == node)
        return say(OHMWRIGHT_TEXT("Node {node}: only {terminal} is there, and no test point. Is a part missing, or its "
                                  "node written in another way elsewhere?"),
                   {{"node", appliance.nodes[node]},
                    {"terminal", part.id + "." + std::string(part.kind->descriptor().terminals[i])}});
  return appliance.nodes[node];
}

std::string reads_nothing_text(const TestPoint& point, const Sentences& say) {
  const FindingArgument id{"point", point.id};
  if (point.probe == Probe::amperes)
    return say(OHMWRIGHT_TEXT("Test point {point}: no current can pass the clamp, whatever is at fault."), {id});
  return say(OHMWRIGHT_TEXT("Test point {point}: nothing leads from one probe to the other, whatever is at fault. Look "
                            "at the nodes of the parts between, and at what is lifted."),
             {id});
}

nlohmann::ordered_json finding_json(const Appliance& appliance, const ApplianceFinding& finding, const Sentences& say) {
  nlohmann::ordered_json json{{"finding", finding_ids.at(static_cast<std::size_t>(finding.form))}};
  switch (finding.form) {
    case FindingForm::loose_node:
    case FindingForm::supply_unconnected:
      json["node"] = appliance.nodes[finding.subject];
      break;
    case FindingForm::same_place:
    case FindingForm::reads_nothing:
      json["test_point"] = appliance.test_points[finding.subject].id;
      break;
    case FindingForm::joined_ends:
    case FindingForm::unreached_part:
      json["part"] = appliance.parts[finding.subject].id;
      break;
    case FindingForm::unseen_fault:
    case FindingForm::never_told_apart:
      json["fault"] = fault_id(appliance, *finding.fault);
      if (finding.other) json["other"] = fault_id(appliance, *finding.other);
      break;
  }
  json["text"] = finding_text(appliance, finding, say);
  return json;
}

}  // namespace

std::string finding_text(const Appliance& appliance, const ApplianceFinding& finding, const Sentences& say) {
  switch (finding.form) {
    case FindingForm::loose_node:
      return loose_node_text(appliance, finding.subject, say);
    case FindingForm::supply_unconnected:
      return say(OHMWRIGHT_TEXT("Node {node} of the supply: no part is there."),
                 {{"node", appliance.nodes[finding.subject]}});
    case FindingForm::joined_ends:
      return say(OHMWRIGHT_TEXT("Part {part}: all its leads are at one node. Is one of them written wrongly?"),
                 {{"part", appliance.parts[finding.subject].id}});
    case FindingForm::same_place:
      return say(OHMWRIGHT_TEXT("Test point {point}: both probes are at one place."),
                 {{"point", appliance.test_points[finding.subject].id}});
    case FindingForm::reads_nothing:
      return reads_nothing_text(appliance.test_points[finding.subject], say);
    case FindingForm::unreached_part:
      return say(OHMWRIGHT_TEXT("Part {part}: no test point shows any fault of it. Add one at its terminals."),
                 {{"part", appliance.parts[finding.subject].id}});
    case FindingForm::unseen_fault:
      return fault_words(appliance, *finding.fault, say);
    case FindingForm::never_told_apart:
      break;
  }
  return say(OHMWRIGHT_TEXT("{one}; and {other}"), {{"one", fault_words(appliance, *finding.fault, say)},
                                                    {"other", fault_words(appliance, *finding.other, say)}});
}

std::string findings_page(const Appliance& appliance, std::span<const ApplianceFinding> findings, const Sentences& say,
                          const PageStyle& style) {
  std::vector<std::string> wrong;
  std::vector<std::string> unseen;
  std::vector<std::string> alike;
  for (const ApplianceFinding& finding : findings) {
    std::vector<std::string>& lines = is_wrong(finding.form)                      ? wrong
                                      : finding.form == FindingForm::unseen_fault ? unseen
                                                                                  : alike;
    lines.push_back(finding_text(appliance, finding, say));
  }
  PageLayout page(style);
  const FindingArgument title{"title", appliance.title};
  page.block(wrong.empty() ? say(OHMWRIGHT_TEXT("{title}: can be used as it is."), {title})
                           : say(OHMWRIGHT_TEXT("{title}: mend the file."), {title}));
  const auto section = [&page](const std::string& heading, const std::vector<std::string>& lines) {
    if (lines.empty()) return;
    page.blank_line();
    page.coloured(heading, "\033[1m");  // it may be longer than a line
    for (const std::string& line : lines) page.item(line);
  };
  section(say(OHMWRIGHT_TEXT("Wrong")), wrong);
  section(say(OHMWRIGHT_TEXT("No reading of this file shows these; what you see and hear must")), unseen);
  section(say(OHMWRIGHT_TEXT("No reading of this file tells these apart")), alike);
  return page.take();
}

std::string findings_json(const Appliance& appliance, std::span<const ApplianceFinding> findings,
                          const Sentences& say) {
  nlohmann::ordered_json json{{"appliance", appliance.id},
                              {"wrong", nlohmann::ordered_json::array()},
                              {"to_know", nlohmann::ordered_json::array()}};
  for (const ApplianceFinding& finding : findings)
    json[is_wrong(finding.form) ? "wrong" : "to_know"].push_back(finding_json(appliance, finding, say));
  return json.dump(2) + "\n";
}

}  // namespace ohmwright
