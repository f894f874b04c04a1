#include <stdexcept>

#include "support/fixture_kind.hpp"

// Texts that would move a cursor, clear a screen or turn words around, wherever a plugin can put some into a message.
namespace {
constexpr const char* spoilt = "line one\nline two \x1b[2J \xE2\x80\xAE backwards \xFF \"end\"";

class SpoiltPart : public ohmwright::Part {
 public:
  void judge(const ohmwright::Evidence& /*evidence*/, const ohmwright::JudgeSettings& /*settings*/,
             ohmwright::Findings& /*findings*/) const override {
    throw std::runtime_error(spoilt);
  }
};

class SpoiltKind : public fixture::FixtureKind<SpoiltPart> {
 public:
  using FixtureKind::FixtureKind;
  std::unique_ptr<const ohmwright::Part> make_part(const ohmwright::ValueNode* ratings,
                                                   std::vector<ohmwright::Problem>& problems) const override {
    if (ratings != nullptr) problems.push_back({"/curve\n", 1, spoilt});
    return FixtureKind::make_part(ratings, problems);
  }
};

ohmwright::Kind* create(std::uint32_t /*index*/) { return new SpoiltKind(fixture::complete_descriptor("unprintable")); }
}  // namespace

OHMWRIGHT_PLUGIN("unprintable", create, 1)
