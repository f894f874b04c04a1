#pragma once

#include <vector>

#include <ohmwright/course/grade.hpp>

#include "verb.hpp"

namespace ohmwright::cli {

/// Puts the instructor's own totals in the records' places: each --override is `FILE=MARKS:NOTE`, or a file with one
/// such line a record. Throws InputError naming what was expected.
void put_overrides(const Arguments& arguments, std::vector<course::Graded>& graded);

}  // namespace ohmwright::cli
