#include <algorithm>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

#include "job/actions.hpp"
#include "job/appliance.hpp"
#include "job/book_file.hpp"
#include "job/point_words.hpp"
#include "job/reader.hpp"
#include "job/reading_judged.hpp"

namespace ohmwright::cli {

namespace {

/// Whether TESTPOINT[@SETUP] is what the word names, and no part is called so.
bool names_a_test_point(const job::ServiceCall& call, const std::string& word, const Environment& environment) {
  if (!call.has_appliance()) return false;
  const Appliance appliance = appliance_of(call, environment);
  const std::string name = word.substr(0, word.find('@'));
  return !part_named(appliance, name) && test_point_named(appliance, name).has_value();
}

/// A test point is read as TESTPOINT=VALUE: what looks like a part and is a point is told so.
void refuse_a_point_without_its_sign(const job::ServiceCall& call, const std::string& name, const Arguments& arguments,
                                     const Environment& environment) {
  if (!names_a_test_point(call, name, environment)) return;
  const bool has_value = arguments.operands.size() > 1 && arguments.operands[1].rfind("--", 0) != 0;
  throw InputError(ohmwright::quoted(name) + " is a test point; write: ohmwright job read " + name + "=" +
                   (has_value ? printable(arguments.operands[1]) : std::string("VALUE")));
}

int read_and_tell(const Arguments& arguments, Environment& environment, bool tells_what_is_next) {
  if (arguments.operands.empty())
    throw InputError(
        "missing: what the meter showed; such as: ohmwright job read TESTPOINT=OL, or ohmwright job read PART 32.1");
  JobAtHand job = job_at_hand(arguments);
  refuse_closed(job);
  JobReader reader(job, arguments, environment, tells_what_is_next);
  const PointWords split = words_of_points(arguments.operands);
  const auto first = std::find_if_not(split.words.begin(), split.words.end(), is_stated_by_points);
  if (first == split.words.end())
    throw InputError("missing: what the meter showed, beside " + arguments.operands.front());
  const bool from_point = arguments.has("--from") && names_a_test_point(job.call, *first, environment);
  if (from_point || first->find('=') != std::string::npos) return reader.read_test_points();
  refuse_a_point_without_its_sign(job.call, *first, arguments, environment);
  return reader.read_part();
}

}  // namespace

int read_for_job(const Arguments& arguments, Environment& environment) {
  return read_and_tell(arguments, environment, true);
}

int read_in_talk(const Arguments& arguments, Environment& environment) {
  return read_and_tell(arguments, environment, false);
}

}  // namespace ohmwright::cli
