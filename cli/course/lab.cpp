#include <ohmwright/course/exercise.hpp>
#include <ohmwright/course/lab.hpp>
#include <ohmwright/report/sentences.hpp>

#include "course/actions.hpp"
#include "course/files.hpp"
#include "exit_codes.hpp"
#include "made_with.hpp"

namespace ohmwright::cli {

int course_lab(const Arguments& arguments, Environment& environment) {
  const std::string& parts = course_operand(arguments, 1, "LAB, your file of tagged parts");
  const std::string& handed_in = course_operand(arguments, 2, "READINGS, what students handed in as CSV");
  const course::Lab lab = course::read_lab(read_document_to_check(parts));
  const course::LabReadings read = course::read_lab_readings(text_of_file(handed_in), handed_in, lab);
  const std::vector<course::LabMark> marks = course::lab_marks(lab, read.readings);
  const Sentences say{UnitPreferences{}};
  const std::string format = arguments.value("--format", "text");
  deliver_beside_the_class(format == "csv"    ? course::lab_csv(marks, read.refused)
                           : format == "html" ? course::lab_html(lab, marks, read.refused, say, made_with())
                                              : course::lab_page(lab, marks, read.refused, say, environment.page),
                           arguments, environment);
  return exit_done;
}

}  // namespace ohmwright::cli
