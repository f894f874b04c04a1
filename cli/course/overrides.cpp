#include "course/overrides.hpp"

#include <algorithm>
#include <filesystem>
#include <sstream>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/stated_value.hpp>

#include "course/files.hpp"

namespace ohmwright::cli {

namespace {

/// `FILE=MARKS:NOTE`: the instructor's own total, with the reason.
void set_aside(const std::string& word, std::vector<course::Graded>& graded) {
  const std::size_t equals = word.find('=');
  const std::size_t colon = word.find(':', equals == std::string::npos ? 0 : equals);
  const std::string expected =
      "--override takes FILE=MARKS:NOTE, anna.record=72:showed it at the bench, or a file of such lines, got ";
  if (equals == std::string::npos || colon == std::string::npos || colon + 1 == word.size())
    throw InputError(expected + ohmwright::quoted(word));
  std::vector<std::string> known;
  for (const course::Graded& one : graded) known.push_back(one.file);
  const std::string file = word.substr(0, equals);
  const auto found = std::find(known.begin(), known.end(), file);
  if (found == known.end())
    throw InputError("there is no record " + ohmwright::quoted(file) + " whose total --override could set" +
                     did_you_mean(file, known));
  const std::string marks = word.substr(equals + 1, colon - equals - 1);
  const double total = parse_stated_value(marks, Dimension::ratio).value.value_in_si();
  if (!(total >= 0.0 && total <= 100.0)) throw InputError(expected + ohmwright::quoted(word) + ": 0 to 100");
  course::Graded& one = graded[static_cast<std::size_t>(found - known.begin())];
  one.total = total;
  one.refused.clear();
  one.note = word.substr(colon + 1);
}

}  // namespace

void put_overrides(const Arguments& arguments, std::vector<course::Graded>& graded) {
  const auto overrides = arguments.options.find("--override");
  if (overrides == arguments.options.end()) return;
  for (const std::string& word : overrides->second) {
    if (word.find('=') != std::string::npos || !std::filesystem::is_regular_file(word)) {
      set_aside(word, graded);
      continue;
    }
    std::istringstream lines(text_of_file(word));
    for (std::string line; std::getline(lines, line);) {
      if (!line.empty() && line.back() == '\r') line.pop_back();
      if (!line.empty() && line.front() != '#') set_aside(line, graded);
    }
  }
}

}  // namespace ohmwright::cli
