#include <stdexcept>

#include "support/fixture_kind.hpp"

// Two kinds that were never asked for a part of which nothing is known: one gives none and says nothing, one throws.
namespace {
class SilentKind : public fixture::FixtureKind<> {
 public:
  using FixtureKind::FixtureKind;
  std::unique_ptr<const ohmwright::Part> make_part(const ohmwright::ValueNode* ratings,
                                                   std::vector<ohmwright::Problem>& problems) const override {
    return ratings == nullptr ? nullptr : FixtureKind::make_part(ratings, problems);
  }
};

class ThrowingKind : public fixture::FixtureKind<> {
 public:
  using FixtureKind::FixtureKind;
  std::unique_ptr<const ohmwright::Part> make_part(const ohmwright::ValueNode* ratings,
                                                   std::vector<ohmwright::Problem>& problems) const override {
    if (ratings == nullptr) throw std::invalid_argument("nothing comes of nothing");
    return FixtureKind::make_part(ratings, problems);
  }
};

ohmwright::Kind* create(std::uint32_t index) {
  if (index == 0) return new SilentKind(fixture::complete_descriptor("silent-without-ratings"));
  return new ThrowingKind(fixture::complete_descriptor("throws-without-ratings"));
}
}  // namespace

OHMWRIGHT_PLUGIN("silent-without-ratings\nthrows-without-ratings", create, 2)
