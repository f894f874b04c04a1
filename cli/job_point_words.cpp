#include "job_point_words.hpp"

#include <algorithm>
#include <array>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::cli {

bool is_stated_by_points(const std::string& word) {
  constexpr std::array<std::string_view, 5> stated{"--lead-off", "--in-circuit", "--proved-dead", "--unplugged",
                                                   "--live"};
  return std::find(stated.begin(), stated.end(), word) != stated.end();
}

void refuse_what_the_point_contradicts(std::string_view option, const TestPoint& point, bool live) {
  const bool lifts = !point.lifted.empty();
  std::string_view why;
  if (option == "--lead-off" && !lifts) why = "no lead is off there";
  if (option == "--in-circuit" && lifts) why = "a lead is off there";
  if ((option == "--proved-dead" || option == "--unplugged") && live) why = "it is read live";
  if (option == "--live" && !live) why = "it is read without supply";
  if (!why.empty())
    throw InputError(std::string(option) + " contradicts the test point " + ohmwright::quoted(point.id) + ": " +
                     std::string(why) + "; leave it out, or choose another point (ohmwright appliance show)");
}

}  // namespace ohmwright::cli
