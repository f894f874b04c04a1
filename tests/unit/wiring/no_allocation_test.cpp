#include <atomic>
#include <cstdlib>
#include <new>

#include <gtest/gtest.h>

#include "wiring_fixture.hpp"
#include "wiring_part.hpp"

// Counts every allocation of the program; `judge` must make none once its findings have grown.

namespace {

std::atomic<long> allocations{0};

void* counted(std::size_t size) {
  allocations.fetch_add(1, std::memory_order_relaxed);
  if (void* memory = std::malloc(size == 0 ? 1 : size)) return memory;
  throw std::bad_alloc();
}

}  // namespace

void* operator new(std::size_t size) { return counted(size); }
void* operator new[](std::size_t size) { return counted(size); }
// The sorting of the standard library asks for memory this way; replaced too, or a sanitizer sees two allocators mixed.
void* operator new(std::size_t size, const std::nothrow_t& /*tag*/) noexcept {
  allocations.fetch_add(1, std::memory_order_relaxed);
  return std::malloc(size == 0 ? 1 : size);
}
void* operator new[](std::size_t size, const std::nothrow_t& tag) noexcept { return operator new(size, tag); }
void operator delete(void* memory) noexcept { std::free(memory); }
void operator delete[](void* memory) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }
void operator delete[](void* memory, std::size_t) noexcept { std::free(memory); }

namespace ohmwright::wiring {
namespace {

using namespace testing_support;

long allocations_of_judge(const std::optional<WiringRatings>& ratings, const std::vector<Typed>& typed) {
  const WiringPart part(ratings);
  const Evidence evidence = evidence_of(typed);
  Findings findings;
  part.judge(evidence, {}, findings);
  findings.clear();
  const long before = allocations.load();
  part.judge(evidence, {}, findings);
  return allocations.load() - before;
}

TEST(Judge, AllocatesNothing) {
  EXPECT_EQ(allocations_of_judge(lead(), {{.value = "0.3 ohm", .at = "20 degC +- 2 K"}}), 0);
  EXPECT_EQ(allocations_of_judge(splice(), {across("1.875 V")}), 0);
  EXPECT_EQ(allocations_of_judge(drum(), {{.value = "2.3 ohm", .length = "50 m"}, across("7.5 V")}), 0);
  EXPECT_EQ(allocations_of_judge(
                lead(), {clipped("0.3 ohm"), clipped("OL"), across("0.1 V"), tester("0.2 Mohm", Moisture::wet),
                         tester("20 Mohm"), in_circuit_ohms("5 ohm"), in_circuit_ohms("5 ohm", "resistance_swapped")}),
            0);
  EXPECT_EQ(allocations_of_judge({}, {{.value = "OL"}, tester("20 Mohm")}), 0);
}

}  // namespace
}  // namespace ohmwright::wiring
