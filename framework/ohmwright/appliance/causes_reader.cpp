#include <algorithm>

#include <ohmwright/appliance/name_finder.hpp>
#include <ohmwright/appliance/places_reader.hpp>
#include <ohmwright/quantity/article.hpp>

namespace ohmwright {

namespace {

std::optional<PartFault> fault_named(const ValueNode& node, const Appliance& appliance,
                                     std::vector<Problem>& problems) {
  if (node.text() == nullptr) return std::nullopt;
  const auto [part, fault] = split_at_dot(*node.text());
  const ValueNode named(part, node.pointer(), node.line());
  const auto index = find_named(&named, "part", appliance.parts, problems);
  if (!index) return std::nullopt;
  const Descriptor& descriptor = appliance.parts[*index].kind->descriptor();
  const std::uint16_t mode = index_of(descriptor.fault_modes, fault);
  if (mode != not_found) return PartFault{*index, mode};
  problems.push_back(node.problem(with_article(descriptor.id) + " has no fault " + ohmwright::quoted(fault) +
                                  suggestion(fault, ids_of(descriptor.fault_modes))));
  return std::nullopt;
}

void read_outside_causes(const ValueNode& root, Appliance& appliance, std::vector<Problem>& problems) {
  for (const ValueNode& entry : list_of(root, "outside_causes")) {
    OutsideCause& cause = appliance.outside_causes.emplace_back();
    cause.id = text_of(entry, "id");
    cause.title = text_of(entry, "title");
    cause.weight = number_of(entry, "weight").value_or(0.0);
    cause.source = text_of(entry, "source");
    cause.check = text_of(entry, "check");
    cause.minutes = minutes_in(entry, "minutes", cause.minutes, problems);
    cause.sealed_system = flag_of(entry, "sealed_system");
    cause.cuts_supply = flag_of(entry, "cuts_supply");
    cause.overheats = flag_of(entry, "overheats");
    const ValueNode* symptoms = entry.find("symptoms");
    if (symptoms == nullptr || symptoms->members() == nullptr) continue;
    for (const auto& [symptom, probability] : *symptoms->members())
      if (probability.number() != nullptr) cause.symptoms.push_back({symptom, *probability.number()});
  }
  refuse_twins(root, "outside_causes", appliance.outside_causes, problems);
}

void read_part_looks(const ValueNode& root, Appliance& appliance, std::vector<Problem>& problems) {
  for (const ValueNode& entry : list_of(root, "looks")) {
    PartLook& look = appliance.part_looks.emplace_back();
    look.id = text_of(entry, "id");
    look.title = text_of(entry, "title");
    look.check = text_of(entry, "check");
    look.minutes = minutes_in(entry, "minutes", look.minutes, problems);
    look.runs = flag_of(entry, "runs");
    for (const ValueNode& fault : list_of(entry, "tells"))
      if (const auto named = fault_named(fault, appliance, problems)) look.tells.push_back(*named);
    const auto is_same = [&](const OutsideCause& cause) { return cause.id == look.id; };
    if (std::any_of(appliance.outside_causes.begin(), appliance.outside_causes.end(), is_same))
      problems.push_back(entry.problem("an outside cause is called " + ohmwright::quoted(look.id) +
                                       ", too; give the look another name"));
  }
  refuse_twins(root, "looks", appliance.part_looks, problems);
}

void read_consequences(const ValueNode& root, Appliance& appliance, std::vector<Problem>& problems) {
  for (const ValueNode& entry : list_of(root, "consequences")) {
    const ValueNode* cause = entry.find("cause");
    const ValueNode* effect = entry.find("effect");
    if (cause == nullptr || effect == nullptr || cause->text() == nullptr) continue;
    Consequence row;
    row.probability = number_of(entry, "probability").value_or(0.0);
    if (cause->text()->find('.') != std::string::npos)
      row.cause = fault_named(*cause, appliance, problems);
    else
      row.outside_cause = find_named(cause, "outside cause", appliance.outside_causes, problems);
    const std::optional<PartFault> follows = fault_named(*effect, appliance, problems);
    if (!follows || (!row.cause && !row.outside_cause)) continue;
    row.effect = *follows;
    if (row.cause && row.cause->part == follows->part)
      problems.push_back(entry.problem("cause and effect are faults of one part, which fails in one way at a time"));
    appliance.consequences.push_back(row);
  }
}

void read_codes(const ValueNode& root, Appliance& appliance, std::vector<Problem>& problems) {
  for (const ValueNode& entry : list_of(root, "codes")) {
    BoardCode code{text_of(entry, "code"), text_of(entry, "meaning"), text_of(entry, "source"), {}};
    for (const ValueNode& fault : list_of(entry, "speaks_of"))
      if (const auto named = fault_named(fault, appliance, problems)) code.speaks_of.push_back(*named);
    appliance.codes.push_back(std::move(code));
  }
}

}  // namespace

void read_causes(const ValueNode& root, Appliance& appliance, std::vector<Problem>& problems) {
  read_outside_causes(root, appliance, problems);
  read_part_looks(root, appliance, problems);
  read_consequences(root, appliance, problems);
  read_codes(root, appliance, problems);
}

}  // namespace ohmwright
