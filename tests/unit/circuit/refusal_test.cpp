#include <string>

#include <gtest/gtest.h>

#include <ohmwright/circuit/voltmeter.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::circuit {
namespace {

Resistance ohms(double value) { return Resistance::from_value(value); }

std::string refusal_of(const Network& network) {
  const NodePair pair{0, 1};
  try {
    const Voltmeter meter(network, Frequency::from_value(60.0), ohms(10e6), {&pair, 1});
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}

TEST(Refusal, ASourceThatConductorsShort) {
  Network shorted;
  for (int i = 0; i < 3; ++i) shorted.add_node();
  shorted.add_branch(0, 1, voltage_source(Voltage::from_value(120.0)), "the supply");
  shorted.add_branch(0, 2, closed(), "a link");
  EXPECT_EQ(refusal_of(shorted), "accepted");
  shorted.add_branch(2, 1, closed(), "another link");
  const std::string refusal = refusal_of(shorted);
  for (const char* name : {"the supply", "a link", "another link"}) EXPECT_NE(refusal.find(name), std::string::npos);
}

}  // namespace
}  // namespace ohmwright::circuit
