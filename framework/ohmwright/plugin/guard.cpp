#include <exception>

#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

std::string one_line(std::string_view text, std::size_t longest) {
  const std::string in_quotes = ohmwright::quoted(text, longest);
  std::string line;
  for (std::size_t i = 1; i + 1 < in_quotes.size(); ++i) {
    const bool escapes_printable = in_quotes[i] == '\\' && (in_quotes[i + 1] == '"' || in_quotes[i + 1] == '\\');
    line += in_quotes[escapes_printable ? ++i : i];  // no quotes around it, so none to be told apart from
  }
  return line;
}

std::string text_of_current_exception() {
  try {
    throw;
  } catch (const std::exception& exception) {
    const char* text = exception.what();
    return text == nullptr || *text == '\0' ? "an exception without a text" : one_line(text);
  } catch (...) {
    return "something was thrown that is no exception";
  }
}

}  // namespace ohmwright
