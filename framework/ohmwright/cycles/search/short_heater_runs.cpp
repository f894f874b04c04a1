#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include <ohmwright/cycles/search/run_scores.hpp>
#include <ohmwright/cycles/search/short_heater_runs.hpp>

namespace ohmwright::cycles {

namespace {

/// Drops runs of at most `rows` rows that are not like the longer ones; where there are not two longer, not like the
/// longest of them, if those are three or more, far from each other and each with a drip time behind it.
void keep_like_trusted(std::size_t rows, HeaterSearch& found) {
  const auto rows_of = [](const HeaterRun& one) { return one.run.end - one.run.begin; };
  const auto longer =
      std::count_if(found.runs.begin(), found.runs.end(), [&](const HeaterRun& one) { return rows_of(one) > rows; });
  const bool none_longer = longer < 2;  // a single one may be two things at once
  std::size_t trusted = rows + 1;
  if (none_longer) {
    trusted = 0;
    for (const HeaterRun& one : found.runs)
      if (rows_of(one) <= rows) trusted = std::max(trusted, rows_of(one));
  }
  std::vector<double> loads;
  for (const HeaterRun& one : found.runs)
    if (rows_of(one) >= trusted && (!none_longer || one.drip_seen)) loads.push_back(one.load);
  const double usual = median_of(loads);
  const auto is_like = [usual](const HeaterRun& one) {
    return one.drip_may_follow && std::abs(one.load - usual) <= like_load * usual;
  };
  std::vector<double> starts;
  for (const HeaterRun& one : found.runs)
    if (none_longer && (is_like(one) || (rows_of(one) >= trusted && rows_of(one) > 1 && one.drip_seen)))
      starts.push_back(one.run.start_second);
  bool are_far = starts.size() >= 3;
  for (std::size_t i = 0; i < starts.size(); ++i) are_far = are_far && spacing_score(nearest(starts, i)) > 0.0;
  std::erase_if(found.runs, [&](const HeaterRun& one) {
    if (rows_of(one) > rows) return false;
    if (!none_longer) return !is_like(one);
    return !are_far || !(is_like(one) || (rows_of(one) >= trusted && rows_of(one) > 1 && one.drip_seen));
  });
}

}  // namespace

UsualRun usual_run_of(const HeaterSearch& found) {
  std::vector<double> loads;
  std::vector<double> seconds;
  for (const HeaterRun& one : found.runs) {
    loads.push_back(one.load);
    seconds.push_back(one.run.duration_second());
  }
  return {median_of(std::move(loads)), median_of(std::move(seconds))};
}

void drop_single_rows(double spacing_second, HeaterSearch& found) {
  if (spacing_second <= coarse_spacing_second) return;
  const auto with_rows = [&](std::size_t least, std::size_t most) {
    return std::count_if(found.runs.begin(), found.runs.end(), [&](const HeaterRun& one) {
      const std::size_t rows = one.run.end - one.run.begin;
      return rows >= least && rows <= most;
    });
  };
  const auto all = static_cast<std::ptrdiff_t>(found.runs.size());
  const auto [least, most] = std::minmax_element(
      found.runs.begin(), found.runs.end(), [](const HeaterRun& a, const HeaterRun& b) { return a.load < b.load; });
  const bool pairs_of_any_level = 2 * with_rows(0, 2) > all && most->load - least->load > 0.4 * most->load;
  if (pairs_of_any_level)
    keep_like_trusted(2, found);  // a part of a row shows any level
  else if (2 * with_rows(0, 1) > all)
    keep_like_trusted(1, found);
}

void drop_weak_and_short(HeaterSearch& found) {
  if (found.runs.size() < 3) return;
  const UsualRun usual = usual_run_of(found);
  std::erase_if(found.runs, [&](const HeaterRun& one) {
    return one.load < 0.65 * usual.load && one.run.duration_second() < 0.75 * usual.second;
  });
}

}  // namespace ohmwright::cycles
