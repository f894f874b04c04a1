#include "kind_files.hpp"

#include <libintl.h>

#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/document/ratings_document.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/quantity/article.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::cli {

namespace {

constexpr const char* default_meter = "basic";

std::string path_of(const std::filesystem::path& folder, const std::string& name_or_file, const std::string& what) {
  return is_path(name_or_file) ? name_or_file : named_file(folder.string(), name_or_file, what);
}

}  // namespace

const LoadedKind& open_kind(const Environment& environment, const std::string& name_or_alias) {
  const LoadedKind& kind = environment.registry.kind(name_or_alias);
  const std::string domain(kind.descriptor().text_domain);
  ::bindtextdomain(domain.c_str(), (kind.data_folder() / "locale").c_str());
  ::bind_textdomain_codeset(domain.c_str(), "UTF-8");
  return kind;
}

void tell_of_other_builds(const Environment& environment, const LoadedKind& kind) {
  if (environment.search.folders.size() < 2) return;  // the installation's alone
  const Sentences say{UnitPreferences{}};
  for (const RefusedPlugin& refused : environment.registry.refused())
    if (refused.another_build_of == kind.path())
      environment.err << paragraph(
          say(OHMWRIGHT_TEXT("{kind} is that of {used}, which was found first; {other} is left out. "
                             "To use the other one, install it over the first (cmake --install), "
                             "or remove the first; ohmwright plugin test tries it as it is."),
              {{"kind", std::string(kind.descriptor().id)},
               {"used", shell_word(kind.path())},
               {"other", shell_word(refused.path)}}),
          environment.page.width);
}

const LoadedKind& kind_typed(const Environment& environment, std::span<const std::string> words) {
  try {
    const LoadedKind& kind = open_kind(environment, words[0]);
    tell_of_other_builds(environment, kind);
    return kind;
  } catch (const InputError&) {
    if (words.size() < 2) throw;
    const std::string both = words[0] + " " + words[1];
    for (const FoundPlugin& plugin : environment.registry.plugins())
      for (const StampedKind& kind : plugin.kinds)
        for (const std::string& alias : kind.aliases)
          if (spoken_name(alias) == spoken_name(both))
            throw InputError("a name of two words goes in quotes: " + ohmwright::quoted(both));
    throw;
  }
}

bool is_file_text(std::string_view name_or_file) { return name_or_file.starts_with('{'); }

RatedPart make_rated_part(const LoadedKind& kind, const RatingsDocument& ratings) {
  std::vector<Problem> problems;
  std::shared_ptr<const Part> part = kind.make_part(ratings.ratings, problems);
  ratings.refuse_if_any(std::move(problems));
  if (part == nullptr) throw DocumentError(ratings.file, {});
  return {std::move(part), ratings.name, ratings.title};
}

RatedPart rated_part(const LoadedKind& kind, const std::string& name_or_file, const std::string& control) {
  if (name_or_file.empty() && !control.empty())
    throw InputError("--control says what reads the part; name the part's own ratings too (--ratings)");
  if (name_or_file.empty()) {
    std::vector<Problem> problems;
    std::shared_ptr<const Part> part = kind.make_part(nullptr, problems);
    if (part == nullptr || !problems.empty())
      throw InputError(with_article(kind.descriptor().id) +
                       " cannot be judged without its ratings; name them with --ratings (see: ohmwright ratings)");
    return {std::move(part), {}, {}};
  }
  RatingsDocument ratings =
      is_file_text(name_or_file)
          ? read_ratings(parse_document_to_check(name_or_file, "the ratings at hand"), kind.descriptor())
          : read_ratings_file(ratings_file(kind, name_or_file), kind.descriptor());
  if (!control.empty())
    ratings = with_control(ratings, read_document_to_check(control_file(kind, control)), kind.descriptor());
  return make_rated_part(kind, ratings);
}

std::string ratings_file(const LoadedKind& kind, const std::string& name_or_file) {
  return path_of(kind.ratings_folder(), name_or_file, "ratings");
}

std::string control_file(const LoadedKind& kind, const std::string& name_or_file) {
  return path_of(kind.data_folder() / "controls", name_or_file, "control");
}

std::string meter_file(const Environment& environment, const std::string& name_or_file) {
  return path_of(environment.locations.meters, name_or_file.empty() ? default_meter : name_or_file, "meter");
}

Meter chosen_meter(const Environment& environment, const std::string& name_or_file) {
  if (is_file_text(name_or_file)) return read_meter(parse_document_to_check(name_or_file, "the meter at hand"));
  return read_meter_file(meter_file(environment, name_or_file));
}

}  // namespace ohmwright::cli
