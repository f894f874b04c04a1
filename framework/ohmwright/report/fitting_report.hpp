#pragma once

#include <span>
#include <string>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/fitting.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

/// A fitting with what its page needs. Refers to what the caller keeps.
struct FittingReport {
  const Descriptor& descriptor;
  const FitRequest& request;
  const Fitting& fitting;
  std::span<const std::string> row_names;  ///< how each row is called: "line 4"
  std::string saved_as = {};               ///< as `--ratings` takes it; empty: not saved
  std::vector<std::string> wants = {};     ///< what the ratings still need and no row tells, in the schema's words
};

/// The frame of a ratings file that a fit is written into.
struct RatingsFrame {
  std::string name;
  std::string title;
  std::string source;
};

/// The page: the rows that break the pattern first, then every form with its figures, its span and its residuals.
std::string fitting_page(const FittingReport& report, const Sentences& say, const PageStyle& style);
/// For programs (schemas/fitting.schema.json), SI units, with a final newline.
std::string fitting_json(const FittingReport& report, const Sentences& say);
/// A ratings file (schemas/ratings.schema.json) of one form, with a final newline.
std::string fitted_ratings_file(const Descriptor& descriptor, const FittedRatings& form, const RatingsFrame& frame);

}  // namespace ohmwright
