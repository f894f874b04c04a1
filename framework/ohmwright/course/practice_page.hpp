#pragma once

#include <string>
#include <string_view>

#include <ohmwright/course/exercise.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

/// The exercise as one HTML page that needs no program and no network: the bench, the answer, the record to save.
/// `file` is the exercise's own file, whose hash the record names.
std::string practice_page(const Exercise& exercise, std::string_view file, const Sentences& say);

// What the page is made of (course/page/).
std::string_view page_style();
std::string_view page_body();
std::string_view page_script();

}  // namespace ohmwright::course
