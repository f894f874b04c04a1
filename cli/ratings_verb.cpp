#include <algorithm>
#include <filesystem>
#include <ostream>

#include <fmt/format.h>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/document/readings_document.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/sentences.hpp>

#include "exit_codes.hpp"
#include "kind_files.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

/// The classes beside one plugin; their frames are read without loading the plugin.
/// Lists the classes in a plugin's folder of ratings. A file that cannot be read ends nothing: what is wrong with it is
/// added to `broken`.
void list_classes(const std::filesystem::path& folder, Environment& environment, std::vector<std::string>& broken) {
  for (const std::string& name : names_in_folder(folder.string())) {
    try {
      const RatingsDocument ratings = read_ratings_frame(read_document_to_check((folder / (name + ".json")).string()));
      environment.out << ratings.kind << "  " << ratings.name << '\n'
                      << paragraph(ratings.title, environment.page.width, "    ", "    ");
    } catch (const InputError& error) {
      broken.emplace_back(error.what());
    }
  }
}

/// Refuses, after the lists, the files that could not be listed.
void refuse_broken(const std::vector<std::string>& broken) {
  std::string all;
  for (const std::string& one : broken) all += (all.empty() ? "" : "\n") + one;
  if (!all.empty()) throw InputError(all);
}

/// Whether a kind is called so, for `ratings thermistor`.
bool is_kind(const std::string& name, const Environment& environment) {
  const std::string spoken = spoken_name(name);
  for (const FoundPlugin& plugin : environment.registry.plugins())
    for (const StampedKind& kind : plugin.kinds) {
      const auto same = [&](const std::string& other) { return spoken_name(other) == spoken; };
      if (same(kind.id) || std::any_of(kind.aliases.begin(), kind.aliases.end(), same)) return true;
    }
  return false;
}

std::string text_of_figure(const ValueNode& node) {
  if (const std::string* text = node.text()) return *text;
  if (const double* number = node.number()) return fmt::format("{:.10g}", *number);
  return {};
}

/// Figures of a ratings document, one a line, nested ones indented; the source of each beside it.
void print_figures(const ValueNode& node, const std::string& indent, Environment& environment) {
  if (const ValueNode::Members* members = node.members()) {
    for (const auto& [name, value] : *members) {
      const ValueNode* figure = value.find("value");
      if (figure != nullptr && figure->text() != nullptr) {
        const ValueNode* source = value.find("source");
        const std::string from = source != nullptr && source->text() != nullptr ? " [" + *source->text() + "]" : "";
        environment.out << paragraph(name + ": " + *figure->text() + from, environment.page.width, indent,
                                     indent + "  ");
      } else if (value.members() != nullptr || value.array() != nullptr) {
        environment.out << indent << name << '\n';
        print_figures(value, indent + "  ", environment);
      } else {
        environment.out << paragraph(name + ": " + text_of_figure(value), environment.page.width, indent,
                                     indent + "  ");
      }
    }
  } else if (const ValueNode::Array* entries = node.array()) {
    for (const ValueNode& entry : *entries) {
      if (entry.members() != nullptr || entry.array() != nullptr)
        print_figures(entry, indent + "  ", environment);
      else
        environment.out << indent << text_of_figure(entry) << '\n';
    }
  }
}

void show_ratings(const LoadedKind& kind, const RatingsDocument& ratings, Environment& environment) {
  make_rated_part(kind, ratings);  // refuses what the kind cannot judge by
  const Sentences say{UnitPreferences{}};
  environment.out << paragraph(ratings.title + " (" + ratings.kind + ", " + ratings.name + ")", environment.page.width);
  environment.out << paragraph(
      say(OHMWRIGHT_TEXT("figures without a source of their own: {source}"), {{"source", ratings.source}}),
      environment.page.width, "  ", "  ");
  print_figures(*ratings.ratings, "  ", environment);
}

/// A class by its name: found among the folders of all plugins, so that the kind need not be typed.
std::string path_of_class(const std::string& name, const Environment& environment) {
  std::vector<std::string> folders;
  std::vector<std::string> kinds;
  for (const FoundPlugin& plugin : environment.registry.plugins()) {
    folders.push_back((plugin.path.parent_path() / "ratings").string());
    for (const StampedKind& kind : plugin.kinds) {
      kinds.push_back(kind.id);
      kinds.insert(kinds.end(), kind.aliases.begin(), kind.aliases.end());
    }
  }
  try {
    return named_file(folders, name, "ratings");
  } catch (const InputError&) {
    const std::string meant = did_you_mean(name, kinds);
    if (meant.empty()) throw;
    throw InputError("there is no class and no kind " + ohmwright::quoted(name) + meant);
  }
}

int run_ratings(const Arguments& arguments, Environment& environment) {
  if (arguments.operands.empty()) {
    std::vector<std::string> broken;
    for (const FoundPlugin& plugin : environment.registry.plugins())
      list_classes(plugin.path.parent_path() / "ratings", environment, broken);
    refuse_broken(broken);
    return exit_done;
  }
  const std::string& typed = arguments.operands[0];
  if (!is_path(typed) && is_kind(typed, environment)) {
    std::vector<std::string> broken;
    list_classes(open_kind(environment, typed).ratings_folder(), environment, broken);
    refuse_broken(broken);
    return exit_done;
  }
  Document document = read_document_to_check(is_path(typed) ? typed : path_of_class(typed, environment));
  const std::string* named = kind_named_in(document);
  if (named != nullptr && !is_kind(*named, environment)) refuse_if_any(document.file, document.problems);
  // What is wrong with the frame is told together with what is wrong with the figures, once the kind is known.
  const LoadedKind& kind = open_kind(environment, named != nullptr ? *named : read_ratings_frame(document).kind);
  show_ratings(kind, read_ratings(std::move(document), kind.descriptor()), environment);
  return exit_done;
}

}  // namespace

VerbSpec ratings_verb() {
  return {
      .name = "ratings",
      .summary = OHMWRIGHT_TEXT("List the classes of parts that are shipped, or check and show one, with its sources"),
      .example = "ohmwright ratings",
      .operands = {{"NAME|KIND|FILE",
                    OHMWRIGHT_TEXT("A class, a kind whose classes to list, or a ratings file of your own"), false,
                    false}},
      .options = {},
      .circumstances = {},
      .takes_conditions = false,
      .run = run_ratings,
  };
}

}  // namespace ohmwright::cli
