#include "plugin/inspection.hpp"

#include <nlohmann/json.hpp>

#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::cli {

namespace {

std::vector<std::string> kind_lines(const std::vector<StampedKind>& kinds, const Sentences& say) {
  std::vector<std::string> lines;
  for (const StampedKind& kind : kinds) {
    const std::string id = one_line(kind.id);
    lines.push_back(kind.aliases.empty() ? id
                                         : say(OHMWRIGHT_TEXT("{kind}, also called: {aliases}"),
                                               {{"kind", id}, {"aliases", listed(kind.aliases)}}));
  }
  return lines;
}

std::vector<std::string> own_words(const PluginInspection& inspection, const Sentences& say) {
  std::vector<std::string> lines;
  if (const std::optional<StampWords>& stamp = inspection.stamp) {
    lines.push_back(say(
        OHMWRIGHT_TEXT("built by {compiler} for plugin ABI {theirs}, this program has {ours}"),
        {{"compiler", stamp->compiler}, {"theirs", std::to_string(stamp->abi)}, {"ours", std::to_string(plugin_abi)}}));
    lines.push_back(say(OHMWRIGHT_TEXT("build tag: {tag}"), {{"tag", stamp->build_tag}}));
    if (stamp->reads_kind_files) lines.push_back(say(OHMWRIGHT_TEXT("it makes kinds of kind files")));
  }
  if (inspection.is_kind_file && !inspection.kinds.empty())
    lines.push_back(say(OHMWRIGHT_TEXT("a kind without C++: data, no code of its own")));
  lines.push_back("SHA-256: " + inspection.sha256);
  if (inspection.permitted) lines.push_back(say(OHMWRIGHT_TEXT("you permitted these bytes (ohmwright plugin allow)")));
  return lines;
}

}  // namespace

std::string inspection_page(const PluginInspection& inspection, const Sentences& say, const PageStyle& style) {
  PageLayout page(style);
  page.block(shell_word(inspection.file));
  page.section(say(OHMWRIGHT_TEXT("Kinds that it names")), kind_lines(inspection.kinds, say));
  page.section(say(OHMWRIGHT_TEXT("What it says of itself")), own_words(inspection, say));
  page.section(say(OHMWRIGHT_TEXT("Refused")), inspection.refused);
  page.blank_line();
  page.block(inspection.refused.empty()
                 ? say(OHMWRIGHT_TEXT("It would be taken. Nothing of it was run; ohmwright plugin test tries it out."))
                 : say(OHMWRIGHT_TEXT("It would be refused. Nothing of it was run.")));
  return page.take();
}

std::string inspection_json(const PluginInspection& inspection) {
  using Json = nlohmann::ordered_json;
  Json json;
  json["file"] = printable(inspection.file.string());
  json["form"] = inspection.is_kind_file ? "kind-file" : "library";
  json["would_be_taken"] = inspection.refused.empty();
  json["kinds"] = Json::array();
  for (const StampedKind& kind : inspection.kinds) {
    Json aliases = Json::array();
    for (const std::string& alias : kind.aliases) aliases.push_back(one_line(alias));
    json["kinds"].push_back({{"id", one_line(kind.id)}, {"aliases", std::move(aliases)}});
  }
  if (const std::optional<StampWords>& stamp = inspection.stamp)
    json["stamp"] = {{"compiler", stamp->compiler},
                     {"abi", stamp->abi},
                     {"build_tag", stamp->build_tag},
                     {"reads_kind_files", stamp->reads_kind_files}};
  json["program_abi"] = plugin_abi;
  json["sha256"] = inspection.sha256;
  json["permitted"] = inspection.permitted;
  json["refused"] = Json::array();
  for (const std::string& reason : inspection.refused) json["refused"].push_back(one_line(reason));
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

}  // namespace ohmwright::cli
