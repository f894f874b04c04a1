// Nodes that wires, plugs and splices make one place, in whatever order the file has them.

#include <algorithm>
#include <array>

#include <gtest/gtest.h>

#include <ohmwright/appliance/joined_places.hpp>

#include "files.hpp"

namespace ohmwright::testing {
namespace {

bool joins(const PlacedPart& part) {
  const auto& roles = part.kind->descriptor().roles;
  return std::find(roles.begin(), roles.end(), "joins-parts") != roles.end();
}

/// The shipped appliance with three of its joints in a row over its first four nodes, each given by its two ends.
Appliance chained(const std::array<std::array<std::size_t, 2>, 3>& ends) {
  Appliance appliance = appliance_of(shipped_text("upright-timer-bimetal-120v"));
  const auto joint = std::find_if(appliance.parts.begin(), appliance.parts.end(), joins);
  if (joint == appliance.parts.end()) throw std::logic_error("the shipped appliance has no joint");
  const PlacedPart model = *joint;
  appliance.parts.clear();
  for (const auto& [from, to] : ends) {
    PlacedPart& part = appliance.parts.emplace_back(model);
    part.nodes = {from, to};
  }
  return appliance;
}

TEST(JoinedPlaces, AreOneThroughAnyNumberOfJoints) {
  std::array<std::size_t, 4> row{0, 1, 2, 3};
  do {  // every order of numbers along the row, of the joints, and of a joint's ends
    std::array<std::array<std::size_t, 2>, 3> ends{};
    for (std::size_t i = 0; i < ends.size(); ++i) ends[i] = {row[i], row[i + 1]};
    for (unsigned turned = 0; turned < 8U; ++turned) {
      auto some = ends;
      for (std::size_t i = 0; i < some.size(); ++i)
        if ((turned >> i & 1U) != 0U) std::swap(some[i][0], some[i][1]);
      std::sort(some.begin(), some.end());
      do {
        const JoinedPlaces places(chained(some));
        for (std::size_t node = 1; node < row.size(); ++node) EXPECT_TRUE(places.are_one(0U, node)) << node;
        EXPECT_FALSE(places.are_one(0U, 4U)) << "no joint leads there";
      } while (std::next_permutation(some.begin(), some.end()));
    }
  } while (std::next_permutation(row.begin(), row.end()));
}

TEST(JoinedPlaces, ATerminalThatIsNotWiredIsNowhere) {
  const JoinedPlaces places(chained({{{0, 1}, {1, 2}, {2, 3}}}));
  EXPECT_FALSE(places.are_one(std::nullopt, 0U));
  EXPECT_FALSE(places.are_one(std::nullopt, std::nullopt));
}

}  // namespace
}  // namespace ohmwright::testing
