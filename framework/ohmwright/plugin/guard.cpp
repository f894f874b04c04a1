#include <exception>

#include <ohmwright/plugin/guard.hpp>

namespace ohmwright {

std::string text_of_current_exception() {
  try {
    throw;
  } catch (const std::exception& exception) {
    const char* text = exception.what();
    return text == nullptr || *text == '\0' ? "an exception without a text" : text;
  } catch (...) {
    return "something was thrown that is no exception";
  }
}

}  // namespace ohmwright
