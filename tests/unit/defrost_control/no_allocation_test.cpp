#include <atomic>
#include <cstdlib>
#include <new>

#include <gtest/gtest.h>

#include "control_fixture.hpp"
#include "control_part.hpp"

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

namespace ohmwright::defrost_control {
namespace {

using namespace testing_support;

long allocations_of_judge(const std::optional<ControlRatings>& ratings, const std::vector<Typed>& typed) {
  const ControlPart part(ratings);
  const Evidence evidence = evidence_of(typed);
  Findings findings;
  part.judge(evidence, {}, findings);
  findings.clear();
  const long before = allocations.load();
  part.judge(evidence, {}, findings);
  return allocations.load() - before;
}

TEST(Judge, AllocatesNothing) {
  const Typed winding{.measurand = "motor", .value = "8 kohm", .at = "22 degC +- 2 K"};
  const Typed watched{.measurand = "advance", .value = "25 min", .position = "defrost", .hertz = "50 Hz"};
  const Typed clock{.measurand = "interval_by_clock", .value = "30 h", .share = "50 % +- 10 %"};
  EXPECT_EQ(allocations_of_judge(timer(), {winding, watched, contact("run_contact", "0.3 ohm", "run"),
                                           contact("defrost_contact", "OL", "run", Connection::in_circuit)}),
            0);
  EXPECT_EQ(allocations_of_judge(board(), {clock, output_at("defrost", "118 V", "3.7 A"), output_at("run", "60 V"),
                                           across("0.2 V", "3.7 A")}),
            0);
  EXPECT_EQ(allocations_of_judge(sensor_board(), {at_sensor("2.5 V", "10 kohm +- 0.1 kohm")}), 0);
  EXPECT_EQ(allocations_of_judge(timer(), {across("7.5 V", "3.7 A")}), 0);  // with what to check before buying
  EXPECT_EQ(allocations_of_judge({}, {winding, contact("run_contact", "0.3 ohm", "run")}), 0);
}

}  // namespace
}  // namespace ohmwright::defrost_control
