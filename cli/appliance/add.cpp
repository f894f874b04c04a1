#include "appliance/add.hpp"

#include <algorithm>
#include <ostream>

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/appliance/file_text.hpp>
#include <ohmwright/appliance/found_on_site.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/document/wording.hpp>
#include <ohmwright/document/write_file.hpp>
#include <ohmwright/quantity/article.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/sentences.hpp>

#include "appliance/new.hpp"
#include "exit_codes.hpp"
#include "kind_files.hpp"

namespace ohmwright::cli {

namespace {

/// The terminal that "heater.lead-1" names.
PartTerminal typed_terminal(const std::string& word, const Appliance& appliance) {
  const std::size_t dot = word.find('.');
  if (dot == std::string::npos)
    throw InputError("--splice takes PART.TERMINAL, such as heater.lead-1, got " + ohmwright::quoted(word));
  const std::vector<std::string> ids = ids_of(appliance.parts);
  const std::string id = word.substr(0, dot);
  const auto part = std::find(ids.begin(), ids.end(), id);
  if (part == ids.end()) throw InputError("the appliance has no part " + ohmwright::quoted(id) + suggestion(id, ids));
  const auto index = static_cast<std::size_t>(part - ids.begin());
  const Descriptor& descriptor = appliance.parts[index].kind->descriptor();
  const std::vector<std::string> terminals(descriptor.terminals.begin(), descriptor.terminals.end());
  const std::string name = word.substr(dot + 1);
  const auto terminal = std::find(terminals.begin(), terminals.end(), name);
  if (terminal == terminals.end())
    throw InputError(with_article(descriptor.id) + " has no terminal " + ohmwright::quoted(name) +
                     suggestion(name, terminals));
  return {index, static_cast<std::uint16_t>(terminal - terminals.begin())};
}

std::vector<std::string> separated_by_commas(const std::string& text) {
  std::vector<std::string> words{""};
  for (const char letter : text) {
    if (letter == ',')
      words.emplace_back();
    else if (letter != ' ')
      words.back() += letter;
  }
  return words;
}

FoundPart typed_part(const Arguments& arguments, const Environment& environment) {
  const std::string word = arguments.value("--part");
  const std::size_t equals = word.find('=');
  if (equals == std::string::npos || equals == 0)
    throw InputError("--part takes ID=KIND, such as second-fan=fan, got " + ohmwright::quoted(word));
  if (!arguments.has("--between"))
    throw InputError("a part needs --between NODE,NODE: where its terminals are connected");
  const LoadedKind& kind = open_kind(environment, word.substr(equals + 1));
  FoundPart part{word.substr(0, equals), arguments.value("--title"), &kind, arguments.value("--ratings"),
                 separated_by_commas(arguments.value("--between"))};
  if (part.title.empty())
    part.title = Sentences(UnitPreferences{}).in_domain(kind.descriptor().text_domain, kind.descriptor().title);
  return part;
}

}  // namespace

int add_to_appliance(const Arguments& arguments, Environment& environment) {
  const std::string& path = arguments.operands[1];
  if (!is_path(path) || path == "-")
    throw InputError("appliance add takes a file of your own, got " + ohmwright::quoted(path) +
                     "; make one with: ohmwright appliance new --out FILE.json");
  if (arguments.has("--part") == arguments.has("--splice"))
    throw InputError("appliance add takes one of --part ID=KIND --between NODE,NODE and --splice PART.TERMINAL");
  const Document document = read_document_to_check(path);
  const Appliance appliance = read_appliance(document, environment.registry);
  ValueNode changed;
  if (arguments.has("--splice")) {
    const ValueNode splice = shipped_kit(environment).splice();
    changed = with_splice(document.root, appliance, typed_terminal(arguments.value("--splice"), appliance),
                          open_kind(environment, text_of(splice, "kind")), text_of(splice, "ratings"));
  } else {
    changed = with_part(document.root, typed_part(arguments, environment));
  }
  const std::string text = file_text(changed);
  const Appliance after =
      read_appliance(parse_document_to_check(text, path), environment.registry);  // or it is refused
  write_file_atomically(arguments.value("--out", path), text);
  const PlacedPart& added = after.parts.back();
  environment.out << paragraph(
      Sentences(UnitPreferences{})(OHMWRIGHT_TEXT("Added {title} ({id}), and the test point {point}."),
                                   {{"title", added.title}, {"id", added.id}, {"point", after.test_points.back().id}}),
      environment.page.width);
  return exit_done;
}

}  // namespace ohmwright::cli
