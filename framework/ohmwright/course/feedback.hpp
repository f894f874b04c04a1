#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <ohmwright/course/grade.hpp>
#include <ohmwright/course/replay.hpp>

namespace ohmwright::course {

/// All that feedback looks at. Refers to what the grader holds.
struct FeedbackOn {
  const Graded& graded;
  const MadeExercise& made;
  const Bench& bench;
  const Record& record;
  const Entry& answer;
  const Replay& replay;
  const std::vector<std::size_t>& named;
  std::vector<std::size_t> truth;
  std::optional<std::size_t> edited_at;
};

/// Sentences that a student can learn from, most important first.
std::vector<std::string> feedback(const FeedbackOn& on);

}  // namespace ohmwright::course
