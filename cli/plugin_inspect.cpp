#include <algorithm>
#include <ostream>
#include <string>
#include <utility>
#include <vector>

#include <ohmwright/plugin/allowed/digest.hpp>
#include <ohmwright/plugin/discovery.hpp>
#include <ohmwright/plugin/kind_file.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/stamp_reader.hpp>
#include <ohmwright/plugin/trust.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/sentences.hpp>

#include "exit_codes.hpp"
#include "plugin_actions.hpp"

namespace ohmwright::cli {

namespace {

/// What the file says of itself, and why it would be refused for that.
struct Inspected {
  std::vector<StampedKind> kinds;
  std::vector<std::string> lines;
  std::vector<std::string> reasons;
};

std::string text_of_field(std::span<const char> field) {
  return one_line(std::string(field.begin(), std::find(field.begin(), field.end(), '\0')));
}

Inspected inspect_library(const ByteSource& bytes, const Sentences& say) {
  Inspected inspected;
  const FoundStamp found = read_stamp(bytes);
  if (!found.stamp) {
    inspected.reasons.push_back(found.refusal);
    return inspected;
  }
  CheckedStamp checked = check_stamp(*found.stamp);
  inspected.lines.push_back(say(OHMWRIGHT_TEXT("built by {compiler} for plugin ABI {theirs}, this program has {ours}"),
                                {{"compiler", text_of_field(found.stamp->compiler)},
                                 {"theirs", std::to_string(found.stamp->abi)},
                                 {"ours", std::to_string(plugin_abi)}}));
  inspected.lines.push_back(say(OHMWRIGHT_TEXT("build tag: {tag}"), {{"tag", text_of_field(found.stamp->build_tag)}}));
  if (checked.reads_kind_files) inspected.lines.push_back(say(OHMWRIGHT_TEXT("it makes kinds of kind files")));
  inspected.kinds = std::move(checked.kinds);
  inspected.reasons = std::move(checked.reasons);
  return inspected;
}

Inspected inspect_kind_file(const TrustedFile& file, const Sentences& say) {
  Inspected inspected;
  try {
    const FoundPlugin found = read_kind_file(FileBytes(file.descriptor.number(), file.size), file);
    inspected.kinds = found.kinds;
    inspected.lines.push_back(say(OHMWRIGHT_TEXT("a kind without C++: data, no code of its own")));
  } catch (const PluginError& error) {
    inspected.kinds = error.kinds();
    inspected.reasons = error.reasons();
  }
  return inspected;
}

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

}  // namespace

int inspect_plugin(const Arguments& arguments, Environment& environment) {
  const Sentences say{UnitPreferences{}};
  const std::filesystem::path path = arguments.operands.at(1);
  const ExaminedFile examined = examine_file(path, environment.search.user);
  if (!examined.file.descriptor.is_open()) throw PluginError(path, examined.distrust);
  const FileBytes bytes(examined.file.descriptor.number(), examined.file.size);
  Inspected inspected =
      is_named_as_kind_file(path) ? inspect_kind_file(examined.file, say) : inspect_library(bytes, say);
  const std::string digest = sha256_of(bytes);
  const bool allowed = environment.search.options.allowed.permits(digest);
  inspected.lines.push_back("SHA-256: " + digest);
  if (allowed) inspected.lines.push_back(say(OHMWRIGHT_TEXT("you permitted these bytes (ohmwright plugin allow)")));
  if (!examined.distrust.empty() && !allowed)
    inspected.reasons.insert(inspected.reasons.end(), examined.distrust.begin(), examined.distrust.end());

  PageLayout page(environment.page);
  page.block(shell_word(examined.file.path));
  page.section(say(OHMWRIGHT_TEXT("Kinds that it names")), kind_lines(inspected.kinds, say));
  page.section(say(OHMWRIGHT_TEXT("What it says of itself")), inspected.lines);
  page.section(say(OHMWRIGHT_TEXT("Refused")), inspected.reasons);
  page.blank_line();
  page.block(inspected.reasons.empty()
                 ? say(OHMWRIGHT_TEXT("It would be taken. Nothing of it was run; ohmwright plugin test tries it out."))
                 : say(OHMWRIGHT_TEXT("It would be refused. Nothing of it was run.")));
  environment.out << page.take();
  return inspected.reasons.empty() ? exit_done : exit_plugin_refused;
}

bool is_of_installation(const std::filesystem::path& file, const Environment& environment) {
  std::error_code error;
  const auto inside = std::filesystem::weakly_canonical(file, error);
  const auto folder = std::filesystem::weakly_canonical(environment.locations.plugins, error);
  return std::mismatch(folder.begin(), folder.end(), inside.begin(), inside.end()).first == folder.end();
}

}  // namespace ohmwright::cli
