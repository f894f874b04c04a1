#pragma once

#include <memory>
#include <span>
#include <string>
#include <string_view>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/meter.hpp>
#include <ohmwright/document/ratings_document.hpp>

#include "environment.hpp"

namespace ohmwright::cli {

/// The kind of that name or alias, loaded, the catalogue of its texts bound.
const LoadedKind& open_kind(const Environment& environment, const std::string& name_or_alias);

/// Tells beside the answer where another build of the kind's plugin lies in one of the folders and is left out, since
/// this one was found first: who builds anew and calls with --plugins would wonder why nothing changed.
void tell_of_other_builds(const Environment& environment, const LoadedKind& kind);

/// The kind that the first of the words typed names. Throws as `open_kind`; a name of two words that was typed without
/// quotes is told of.
const LoadedKind& kind_typed(const Environment& environment, std::span<const std::string> words);

/// Whether somebody who was asked for a name or a file gave the file's text itself: a job keeps what it was given, and
/// goes on when the file has moved.
bool is_file_text(std::string_view name_or_file);

/// A part as ratings describe it, and what people call it.
struct RatedPart {
  std::shared_ptr<const Part> part;
  std::string name;  ///< empty: nothing is known of the part
  std::string title;
};

/// The part of a ratings document that was read. Throws DocumentError with all that the kind finds wrong.
RatedPart make_rated_part(const LoadedKind& kind, const RatingsDocument& ratings);

/// The part for `--ratings NAME|FILE`: a class shipped with the kind, a file (anything with a "/" or ".json"), or such
/// a file's text. An empty text gives a part of which nothing is known. Throws InputError with the names there are,
/// DocumentError for a bad file.
///
/// `control` is what `--control` names, or empty: what reads or drives the part, shipped with the kind or a file, in
/// place of what the ratings say of it.
RatedPart rated_part(const LoadedKind& kind, const std::string& name_or_file, const std::string& control = {});

/// Where the part's ratings stand, and what reads or drives it, as `rated_part` finds them.
std::string ratings_file(const LoadedKind& kind, const std::string& name_or_file);
std::string control_file(const LoadedKind& kind, const std::string& name_or_file);

/// Where the meter stands that `chosen_meter` reads.
std::string meter_file(const Environment& environment, const std::string& name_or_file);

/// The meter for `--meter NAME|FILE`, or for such a file's text; an empty text gives the basic class. Throws as
/// `rated_part` does.
Meter chosen_meter(const Environment& environment, const std::string& name_or_file);

}  // namespace ohmwright::cli
