#pragma once

#include <ohmwright/component/kind.hpp>

namespace ohmwright::testing {

/// Allocations of the whole program so far. A test that uses it also builds allocations.cpp, which replaces `new`.
long allocation_count();

/// What a second call of `judge` allocates: the first lets the findings grow to their size.
inline long allocations_of_judge(const Part& part, const Evidence& evidence) {
  Findings findings;
  part.judge(evidence, {}, findings);
  findings.clear();
  const long before = allocation_count();
  part.judge(evidence, {}, findings);
  return allocation_count() - before;
}

}  // namespace ohmwright::testing
