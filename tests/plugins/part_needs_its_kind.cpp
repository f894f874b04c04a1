#include <stdexcept>

#include "support/fixture_kind.hpp"

// Nothing wrong: a part that looks at its kind whenever it is judged, so the kind must live as long as the part.
namespace {
bool kind_lives = false;

class NeedyPart : public fixture::FixturePart {
 public:
  void judge(const ohmwright::Evidence& evidence, const ohmwright::JudgeSettings& settings,
             ohmwright::Findings& findings) const override {
    if (!kind_lives) throw std::logic_error("its kind is gone");
    FixturePart::judge(evidence, settings, findings);
  }
};

class LivingKind : public fixture::FixtureKind<NeedyPart> {
 public:
  LivingKind() : FixtureKind(fixture::complete_descriptor("needy-part")) { kind_lives = true; }
  LivingKind(const LivingKind&) = delete;
  LivingKind(LivingKind&&) = delete;
  LivingKind& operator=(const LivingKind&) = delete;
  LivingKind& operator=(LivingKind&&) = delete;
  ~LivingKind() override { kind_lives = false; }
};

ohmwright::Kind* create(std::uint32_t /*index*/) { return new LivingKind; }
}  // namespace

OHMWRIGHT_PLUGIN("needy-part", create, 1)
