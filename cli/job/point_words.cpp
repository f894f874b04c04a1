#include "job/point_words.hpp"

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

PointWords words_of_points(const std::vector<std::string>& typed) {
  constexpr std::string_view at = "--at";
  PointWords split;
  for (std::size_t i = 0; i < typed.size(); ++i) {
    if (typed[i] == at) {
      if (i + 1 == typed.size()) throw InputError("--at: missing: the temperature of the part, such as 77F or 4C");
      split.at = typed[++i];
    } else if (typed[i].rfind("--at=", 0) == 0) {
      split.at = typed[i].substr(at.size() + 1);
    } else {
      split.words.push_back(typed[i]);
    }
  }
  return split;
}

std::string zone_word_at(const std::string& at, const TestPoint& point, std::optional<std::size_t> part,
                         const Appliance& appliance) {
  if (!part)
    throw InputError("--at is the temperature of one part, and " + ohmwright::quoted(point.id) +
                     " reads none alone; say it of the place: ohmwright job sign --zone " +
                     (appliance.zones.empty() ? std::string("ZONE") : appliance.zones.front().id) + "=" +
                     printable(at));
  const std::optional<std::size_t>& zone = appliance.parts[*part].zone;
  if (!zone)
    throw InputError("--at: the appliance's file puts " + ohmwright::quoted(appliance.parts[*part].id) +
                     " in no zone; leave it out");
  return appliance.zones[*zone].id + "=" + at;
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
