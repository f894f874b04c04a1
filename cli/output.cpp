#include "output.hpp"

#include <ostream>

#include <ohmwright/document/write_file.hpp>

namespace ohmwright::cli {

void deliver(const std::string& text, const Arguments& arguments, Environment& environment) {
  if (arguments.has("--out"))
    write_file_atomically(arguments.value("--out"), text);
  else
    environment.out << text;
}

}  // namespace ohmwright::cli
