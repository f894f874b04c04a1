#pragma once

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

// What `ohmwright course` can do, one file each; each gives the exit code.
int course_make(const Arguments& arguments, Environment& environment);
int course_practise(const Arguments& arguments, Environment& environment);
int course_answer(const Arguments& arguments, Environment& environment);
int course_grade(const Arguments& arguments, Environment& environment);
int course_worksheet(const Arguments& arguments, Environment& environment);
int course_explain(const Arguments& arguments, Environment& environment);
int course_lab(const Arguments& arguments, Environment& environment);

}  // namespace ohmwright::cli
