#include "job/lost_files.hpp"

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/sentences.hpp>

#include "job/reading_judged.hpp"
#include "job/search.hpp"
#include "kind_files.hpp"

namespace ohmwright::cli {

namespace {

/// Whether the ratings of the part that went in last are lost; that its plugin is, is told where it is asked for.
bool is_lost(const job::ReplacedPart& part, const job::ServiceCall& call, const Environment& environment) {
  if (part.kind.empty() || !part.new_file.empty()) return false;
  try {
    return ratings_are_lost(open_kind(environment, part.kind), ratings_that_went_in(call, part.part));
  } catch (const Error&) {
    return false;
  }
}

}  // namespace

std::vector<std::string> lost_files(const job::ServiceCall& call, const Environment& environment) {
  const Sentences say{UnitPreferences{}};
  std::vector<std::string> lines;
  if (const std::string lost = meters_of_call(call, environment).lost; !lost.empty())
    lines.push_back(
        say(OHMWRIGHT_TEXT("The meter {file} can no longer be read, and {meter} is taken in its place. Name "
                           "it anew: ohmwright job sign --meter FILE"),
            {{"file", printable(lost)}, {"meter", meter_of_call(call, environment).title}}));
  for (const auto& [id, work] : call.last_work_on_each()) {
    const job::ReplacedPart* part = call.last_new(id);
    if (part == nullptr || !is_lost(*part, call, environment)) continue;
    lines.push_back(say(
        OHMWRIGHT_TEXT("The ratings {file} of the new {part} can no longer be read, and nothing is known of it. Name "
                       "them with its reading: ohmwright job read {id} VALUE --ratings FILE"),
        {{"file", printable(part->new_ratings)}, {"part", printable(part->title)}, {"id", part->part}}));
  }
  return lines;
}

}  // namespace ohmwright::cli
