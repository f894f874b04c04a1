#include <ohmwright/report/gnuplot_script.hpp>
#include <ohmwright/report/paragraph.hpp>

namespace ohmwright {

std::string quoted_for_gnuplot(std::string_view text) {
  std::string quoted = "'";
  for (const char letter : with_plain_spaces(text)) {
    if (static_cast<unsigned char>(letter) < 0x20 || letter == 0x7f) continue;
    quoted += letter;
    if (letter == '\'') quoted += letter;
  }
  return quoted + "'";
}

}  // namespace ohmwright
