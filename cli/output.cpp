#include "output.hpp"

#include <ostream>
#include <system_error>

#include <ohmwright/document/write_file.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::cli {

namespace {

namespace fs = std::filesystem;

/// Options of all verbs that name a file which is read.
constexpr std::string_view reading_options[] = {
    "--after",    "--appliance",       "--before",  "--book",     "--control", "--key",    "--log",    "--meter",
    "--override", "--passphrase-file", "--ratings", "--readings", "--record",  "--series", "--weights"};

bool is_one_file(const fs::path& one, const fs::path& other) {
  std::error_code error;
  if (fs::equivalent(one, other, error)) return true;
  const fs::path whole = fs::weakly_canonical(fs::absolute(one, error), error);  // of files that are not there yet
  return !error && whole == fs::weakly_canonical(fs::absolute(other, error), error);
}

bool is_same_file_there(const fs::path& out, const fs::path& read) {
  std::error_code error;
  return fs::equivalent(out, read, error);
}

}  // namespace

void refuse_to_overwrite(const Arguments& arguments, std::string_view writing,
                         std::span<const std::filesystem::path> also_read) {
  if (!arguments.has(writing)) return;
  const fs::path out(arguments.value(writing));
  const std::string option(writing);
  for (const std::string_view reading : reading_options) {
    const auto given = arguments.options.find(reading);
    if (reading == writing || given == arguments.options.end()) continue;
    for (const std::string& file : given->second)
      if (is_same_file_there(out, file))
        throw InputError(option + " would overwrite what " + std::string(reading) + " reads; choose another name");
  }
  const auto refuse = [&](const fs::path& file) {
    if (is_same_file_there(out, file))
      throw InputError(option + " would overwrite " + ohmwright::quoted(file.string()) +
                       ", which is read; choose another name");
  };
  for (const std::string& operand : arguments.operands) refuse(operand);
  for (const fs::path& file : also_read) refuse(file);
}

void refuse_one_file_for_both(const Arguments& arguments, std::string_view one, std::string_view other) {
  if (!arguments.has(one) || !arguments.has(other)) return;
  const std::string file = arguments.value(one);
  std::error_code error;
  const bool is_kept = !fs::exists(file, error) || fs::is_regular_file(file, error);  // /dev/null may take both
  if (is_kept && is_one_file(file, arguments.value(other)))
    throw InputError(std::string(one) + " and " + std::string(other) + " would both write " + ohmwright::quoted(file) +
                     "; name two files");
}

void deliver(const std::string& text, const Arguments& arguments, Environment& environment) {
  refuse_to_overwrite(arguments, "--out");
  if (arguments.has("--out"))
    write_file_atomically(arguments.value("--out"), text);
  else
    environment.out << text;
}

}  // namespace ohmwright::cli
