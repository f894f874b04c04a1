#include "output.hpp"

#include <filesystem>
#include <ostream>
#include <string>
#include <system_error>

#include <ohmwright/document/write_file.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::cli {

namespace {

/// A report must not take the place of what it was made from: readings of a fault may not come again.
void refuse_to_overwrite_input(const Arguments& arguments) {
  const std::filesystem::path out(arguments.value("--out"));
  std::error_code error;
  for (const char* option :
       {"--series", "--readings", "--ratings", "--control", "--meter", "--before", "--after", "--log", "--book"}) {
    const auto given = arguments.options.find(option);
    if (given == arguments.options.end()) continue;
    for (const std::string& file : given->second)
      if (std::filesystem::equivalent(out, file, error))
        throw InputError("--out would overwrite what " + std::string(option) + " reads; choose another name");
  }
  for (const std::string& operand : arguments.operands)
    if (std::filesystem::equivalent(out, operand, error))
      throw InputError("--out would overwrite " + ohmwright::quoted(operand) + ", which is read; choose another name");
}

}  // namespace

void deliver(const std::string& text, const Arguments& arguments, Environment& environment) {
  if (arguments.has("--out")) refuse_to_overwrite_input(arguments);
  if (arguments.has("--out"))
    write_file_atomically(arguments.value("--out"), text);
  else
    environment.out << text;
}

}  // namespace ohmwright::cli
