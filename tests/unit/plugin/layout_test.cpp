// The layout of what crosses the boundary to a plugin, held to `plugin_abi`: who changes one raises the other.

#include <map>
#include <string>

#include <gtest/gtest.h>

#include <ohmwright/component/comparison.hpp>
#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/fitting.hpp>
#include <ohmwright/component/in_circuit.hpp>
#include <ohmwright/component/insulation.hpp>
#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/plugin_entry.hpp>
#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {
namespace {

using Sizes = std::map<std::string, std::size_t>;

Sizes sizes_here() {
  return {
#define OHMWRIGHT_SIZE_OF(type) {#type, sizeof(type)}
      OHMWRIGHT_SIZE_OF(AdviceDescriptor),
      OHMWRIGHT_SIZE_OF(AnyQuantity),
      OHMWRIGHT_SIZE_OF(CautionDescriptor),
      OHMWRIGHT_SIZE_OF(ComparisonContext),
      OHMWRIGHT_SIZE_OF(ConditionDescriptor),
      OHMWRIGHT_SIZE_OF(Descriptor),
      OHMWRIGHT_SIZE_OF(Element),
      OHMWRIGHT_SIZE_OF(EquivalenceFinding),
      OHMWRIGHT_SIZE_OF(Evidence),
      OHMWRIGHT_SIZE_OF(Expectation),
      OHMWRIGHT_SIZE_OF(FaultModeDescriptor),
      OHMWRIGHT_SIZE_OF(Finding),
      OHMWRIGHT_SIZE_OF(FitRequest),
      OHMWRIGHT_SIZE_OF(Fitting),
      OHMWRIGHT_SIZE_OF(InCircuitRule),
      OHMWRIGHT_SIZE_OF(InsulationRule),
      OHMWRIGHT_SIZE_OF(InsulationText),
      OHMWRIGHT_SIZE_OF(MeasurandDescriptor),
      OHMWRIGHT_SIZE_OF(Meter),
      OHMWRIGHT_SIZE_OF(Observed),
      OHMWRIGHT_SIZE_OF(PluginStamp),
      OHMWRIGHT_SIZE_OF(PluginTable),
      OHMWRIGHT_SIZE_OF(Problem),
      OHMWRIGHT_SIZE_OF(ProcedureDescriptor),
      OHMWRIGHT_SIZE_OF(Reading),
      OHMWRIGHT_SIZE_OF(RuleDescriptor),
      OHMWRIGHT_SIZE_OF(Situation),
      OHMWRIGHT_SIZE_OF(StateDescriptor),
      OHMWRIGHT_SIZE_OF(StatedValue),
      OHMWRIGHT_SIZE_OF(ValueNode),
#undef OHMWRIGHT_SIZE_OF
  };
}

// Sizes for 64-bit libstdc++ without container checks. A member that fits into padding escapes; a review must see it.
TEST(PluginLayout, IsThatOfItsAbi) {
#if !defined(__GLIBCXX__) || defined(_GLIBCXX_DEBUG) || !defined(__LP64__)
  GTEST_SKIP() << "sizes are listed for libstdc++ with 64-bit pointers";
#endif
  const std::map<std::uint32_t, Sizes> sizes_of_abi{
      {2,
       {{"AdviceDescriptor", 48},
        {"AnyQuantity", 16},
        {"CautionDescriptor", 64},
        {"ComparisonContext", 184},
        {"ConditionDescriptor", 120},
        {"Descriptor", 392},
        {"Element", 32},
        {"EquivalenceFinding", 616},
        {"Evidence", 72},
        {"Expectation", 88},
        {"FaultModeDescriptor", 104},
        {"Finding", 1112},
        {"FitRequest", 24},
        {"Fitting", 48},
        {"InCircuitRule", 64},
        {"InsulationRule", 16},
        {"InsulationText", 1},
        {"MeasurandDescriptor", 64},
        {"Meter", 168},
        {"Observed", 48},
        {"PluginStamp", 1016},
        {"PluginTable", 32},
        {"Problem", 72},
        {"ProcedureDescriptor", 104},
        {"Reading", 296},
        {"RuleDescriptor", 88},
        {"Situation", 136},
        {"StateDescriptor", 72},
        {"StatedValue", 40},
        {"ValueNode", 80}}},
  };
  EXPECT_EQ(sizes_here(), sizes_of_abi.at(plugin_abi))
      << "what crosses the boundary changed: raise plugin_abi (component/plugin_entry.hpp), say so in CHANGELOG.md "
         "under Plugin ABI, and list the new sizes here";
}

}  // namespace
}  // namespace ohmwright
