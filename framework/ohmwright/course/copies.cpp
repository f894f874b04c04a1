#include <algorithm>
#include <cstddef>
#include <utility>

#include <ohmwright/course/copies.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

namespace {

std::size_t shared_links(const Graded& one, const Graded& other) {
  const auto [in_one, in_other] =
      std::mismatch(one.links.begin(), one.links.end(), other.links.begin(), other.links.end());
  return static_cast<std::size_t>(in_one - one.links.begin());
}

}  // namespace

void note_copies(std::span<Graded> graded) {
  const Sentences say{UnitPreferences{}};
  for (Graded& one : graded) {
    std::size_t longest = 0;
    const Graded* like_it = nullptr;
    for (const Graded& other : graded) {
      if (&other == &one) continue;
      const std::size_t shared = shared_links(one, other);
      if (shared <= longest) continue;
      longest = shared;
      like_it = &other;
      const bool is_whole = shared == one.links.size() && shared == other.links.size();
      one.same_as = is_whole ? other.file
                             : say(OHMWRIGHT_TEXT("{record}, up to entry {number}"),
                                   {{"record", other.file}, {"number", std::to_string(shared - 1)}});
    }
    if (like_it != nullptr && like_it->was_edited && !one.was_edited) std::swap(one.same_as, one.copied_by);
  }
}

std::vector<std::string> exercises_without_record(const CourseKey& key, std::span<const Graded> graded) {
  std::vector<std::string> missing;
  for (std::size_t i = 0; i < key.exercises.size(); ++i) {
    const std::string& exercise = key.exercises[i].truth.exercise;
    if (std::none_of(graded.begin(), graded.end(), [&](const Graded& one) { return one.exercise == exercise; }))
      missing.push_back(exercise_file_name(i));
  }
  return missing;
}

}  // namespace ohmwright::course
