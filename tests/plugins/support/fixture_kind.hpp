#pragma once

#include <memory>
#include <string_view>
#include <utility>
#include <vector>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/plugin_entry.hpp>

// A small kind that is right in everything. Each wrong plugin takes it and spoils one thing.

namespace fixture {

inline ohmwright::Descriptor complete_descriptor(std::string_view id, std::vector<std::string_view> aliases = {}) {
  ohmwright::Descriptor descriptor;
  descriptor.id = id;
  descriptor.title = "Part for tests";
  descriptor.aliases = std::move(aliases);
  descriptor.text_domain = "ohmwright-fixture";
  descriptor.terminals = {"a", "b"};
  descriptor.ratings_schema = R"({"type":"object"})";
  descriptor.measurands = {{"resistance", "Resistance", ohmwright::Dimension::resistance, "ohm", false}};
  descriptor.rules = {{"reads-something",
                       "It reads something",
                       true,
                       ohmwright::can_be_undecided,
                       "made up for this test",
                       {{"reads", "it reads something"}}}};
  descriptor.procedures = {
      {"read-it", "Read it", "resistance", 1.0, {{"touch", "Touch both leads"}}, {"disconnect-power"}}};
  return descriptor;
}

/// A part of which one rule says that it cannot tell.
class FixturePart : public ohmwright::Part {
 public:
  void judge(const ohmwright::Evidence& /*evidence*/, const ohmwright::JudgeSettings& /*settings*/,
             ohmwright::Findings& findings) const override {
    findings.add(0, ohmwright::Outcome::undecided, 0);
  }
};

/// A kind with that descriptor whose parts are of type `PartType`.
template <class PartType = FixturePart>
class FixtureKind : public ohmwright::Kind {
 public:
  explicit FixtureKind(ohmwright::Descriptor descriptor) : descriptor_(std::move(descriptor)) {}

  const ohmwright::Descriptor& descriptor() const override { return descriptor_; }
  std::unique_ptr<const ohmwright::Part> make_part(const ohmwright::ValueNode* /*ratings*/,
                                                   std::vector<ohmwright::Problem>& /*problems*/) const override {
    return std::make_unique<PartType>();
  }

 private:
  ohmwright::Descriptor descriptor_;
};

}  // namespace fixture
