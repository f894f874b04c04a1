#pragma once

#include <span>

#include <ohmwright/course/grade.hpp>

namespace ohmwright::course {

/// Notes in `Graded::same_as` of each record which other one of the same exercise begins like it, and up to which
/// entry. Two honest students share nothing: each start has a word drawn at random, and every link stands for all
/// before it. Of two of which one was edited, the other was there first: it gets that one in `Graded::copied_by`.
void note_copies(std::span<Graded> graded);

/// The names of those exercises of a set of which no record is among these, in the set's order.
std::vector<std::string> exercises_without_record(const CourseKey& key, std::span<const Graded> graded);

}  // namespace ohmwright::course
