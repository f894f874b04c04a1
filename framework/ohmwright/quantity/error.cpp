#include <utility>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

std::string one_line_each(const std::string& file, const std::vector<Problem>& problems) {
  std::string text;
  for (const Problem& problem : problems) {
    if (!text.empty()) text += '\n';
    text += printable(file);
    if (problem.line > 0) text += ':' + std::to_string(problem.line);
    if (!problem.pointer.empty()) text += ": " + printable(problem.pointer);
    text += ": " + printable(problem.text);
  }
  return text;
}

}  // namespace

Error::Error(ErrorCategory category, std::string text) : text_(std::move(text)), category_(category) {}
Error::~Error() = default;

InputError::InputError(std::string text) : Error(ErrorCategory::input, std::move(text)) {}
InputError::~InputError() = default;

DocumentError::DocumentError(std::string file, std::vector<Problem> problems)
    : Error(ErrorCategory::input, one_line_each(file, problems)),
      file_(std::move(file)),
      problems_(std::move(problems)) {}
DocumentError::~DocumentError() = default;

}  // namespace ohmwright
