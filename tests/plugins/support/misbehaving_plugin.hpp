#pragma once

#include "fixture_kind.hpp"

// A plugin whose kind is right in everything until it judges: then `misbehave` runs, and the part is said to be good.
// OHMWRIGHT_MISBEHAVING("crashes-in-judge", [](ohmwright::Findings& findings) { … });

namespace fixture {

template <class Misbehave>
class MisbehavingPart : public ohmwright::Part {
 public:
  void judge(const ohmwright::Evidence& /*evidence*/, const ohmwright::JudgeSettings& /*settings*/,
             ohmwright::Findings& findings) const override {
    Misbehave()(findings);
  }
};

}  // namespace fixture

#define OHMWRIGHT_MISBEHAVING(id, ...)                                                                      \
  namespace {                                                                                               \
  struct Misbehave {                                                                                        \
    void operator()(ohmwright::Findings& findings) const __VA_ARGS__                                        \
  };                                                                                                        \
  ohmwright::Kind* create(std::uint32_t /*index*/) {                                                        \
    return new fixture::FixtureKind<fixture::MisbehavingPart<Misbehave>>(fixture::complete_descriptor(id)); \
  }                                                                                                         \
  }                                                                                                         \
  OHMWRIGHT_PLUGIN(id, create, 1)
