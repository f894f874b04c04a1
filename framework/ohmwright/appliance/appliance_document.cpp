#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/appliance/places_reader.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/schema.hpp>
#include <ohmwright/document/shipped_schemas.hpp>

namespace ohmwright {

Appliance read_appliance(const Document& document, const Registry& registry) {
  const ValueNode& root = document.root;
  std::vector<Problem> problems = appliance_schema().problems(document);
  Appliance appliance;
  appliance.id = text_of(root, "appliance");
  appliance.title = text_of(root, "title");
  appliance.source = text_of(root, "source");
  appliance.market = text_of(root, "market");
  appliance.refrigerant = text_of(root, "refrigerant");
  for (const ValueNode& sentence : list_of(root, "assumed"))
    if (sentence.text() != nullptr) appliance.assumed.push_back(*sentence.text());
  read_places(root, appliance, problems);
  read_parts(root, registry, appliance, problems);
  // Of a name that stands twice the tree has the first: it is as good to read further as any.
  const auto is_sound = [&] { return problems.size() == document.problems.size(); };
  // What names parts is read only when they could be: else each would be told of again at every place that names it.
  if (is_sound()) read_work(root, appliance, problems);
  if (is_sound()) read_causes(root, appliance, problems);
  if (is_sound()) read_words(root, appliance, problems);
  refuse_if_any(document.file, std::move(problems));
  return appliance;
}

}  // namespace ohmwright
