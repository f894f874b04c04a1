#include <atomic>
#include <cstdlib>
#include <new>

#include <gtest/gtest.h>

#include "kind_fixture.hpp"

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

namespace ohmwright::kind_file {
namespace {

using namespace testing_support;

long allocations_of_judge(const std::string& ratings, const std::vector<Typed>& typed) {
  const auto kind = coil();
  const auto part = part_of(*kind, ratings);
  const Evidence evidence(kind->descriptor(), readings_of(*kind, typed), meters());
  Findings findings;
  part->judge(evidence, {}, findings);
  findings.clear();
  const long before = allocations.load();
  part->judge(evidence, {}, findings);
  return allocations.load() - before;
}

TEST(Judge, AllocatesNothing) {
  const std::string ratings = R"({"nominal": "82 ohm", "opens": "13 degC", "voltage": "240 V", "power": "5.2 kW"})";
  EXPECT_EQ(allocations_of_judge(ratings, {{"82 ohm", "25 degC"}}), 0);
  EXPECT_EQ(allocations_of_judge(ratings, {{"77.8 ohm", "31 degC +- 3 K"}}), 0);  // with advice
  EXPECT_EQ(allocations_of_judge(ratings,
                                 {{"82 ohm", "25 degC"},
                                  {"84 ohm", "31 degC"},
                                  {.value = "OL", .at = "25 degC", .range = "600 ohm"},
                                  {"60 ohm", "25 degC", Connection::in_circuit},
                                  {.value = "closed", .at = "8 degC", .measurand = "contact"},
                                  {.value = "100 ohm", .at = "8 degC", .measurand = "contact"},
                                  {.value = "21 A", .measurand = "current", .supply = Supply::live, .line = "240 V"}}),
            0);
  EXPECT_EQ(allocations_of_judge("", {{"82 ohm", "25 degC"}}), 0);
}

}  // namespace
}  // namespace ohmwright::kind_file
