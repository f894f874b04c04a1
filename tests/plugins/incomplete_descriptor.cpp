#include "support/fixture_kind.hpp"

namespace {
ohmwright::Kind* create(std::uint32_t /*index*/) {
  ohmwright::Descriptor descriptor = fixture::complete_descriptor("another-id");
  descriptor.title = "";
  descriptor.rules.front().texts.clear();
  descriptor.procedures.front().measurand = "insulation";
  descriptor.procedures.front().cautions.clear();
  descriptor.cautions = {
      {"disconnect-power", "Plugged in is fine", "It need not be unplugged", "made up for this test"}};
  return new fixture::FixtureKind<>(descriptor);
}
}  // namespace

OHMWRIGHT_PLUGIN("incomplete-descriptor\tunfinished", create, 1)
