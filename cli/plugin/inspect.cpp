#include <algorithm>
#include <string>
#include <utility>

#include <ohmwright/plugin/allowed/digest.hpp>
#include <ohmwright/plugin/discovery.hpp>
#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/plugin/kind_file.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/stamp_reader.hpp>
#include <ohmwright/plugin/trust.hpp>

#include "exit_codes.hpp"
#include "output.hpp"
#include "plugin/actions.hpp"
#include "plugin/inspection.hpp"

namespace ohmwright::cli {

namespace {

std::string text_of_field(std::span<const char> field) {
  return one_line(std::string(field.begin(), std::find(field.begin(), field.end(), '\0')));
}

void inspect_library(const ByteSource& bytes, PluginInspection& inspection) {
  const FoundStamp found = read_stamp(bytes);
  if (!found.stamp) {
    inspection.refused.push_back(found.refusal);
    return;
  }
  CheckedStamp checked = check_stamp(*found.stamp);
  inspection.stamp = StampWords{text_of_field(found.stamp->compiler), found.stamp->abi,
                                text_of_field(found.stamp->build_tag), checked.reads_kind_files};
  inspection.kinds = std::move(checked.kinds);
  inspection.refused = std::move(checked.reasons);
}

void inspect_kind_file(const TrustedFile& file, PluginInspection& inspection) {
  inspection.is_kind_file = true;
  try {
    inspection.kinds = read_kind_file(FileBytes(file.descriptor.number(), file.size), file).kinds;
  } catch (const PluginError& error) {
    inspection.kinds = error.kinds();
    inspection.refused = error.reasons();
  }
}

}  // namespace

int inspect_plugin(const Arguments& arguments, Environment& environment) {
  const std::filesystem::path path = arguments.operands.at(1);
  const ExaminedFile examined = examine_file(path, environment.search.user);
  if (!examined.file.descriptor.is_open()) throw PluginError(path, examined.distrust);
  const FileBytes bytes(examined.file.descriptor.number(), examined.file.size);
  PluginInspection inspection;
  inspection.file = examined.file.path;
  if (is_named_as_kind_file(path))
    inspect_kind_file(examined.file, inspection);
  else
    inspect_library(bytes, inspection);
  inspection.sha256 = sha256_of(bytes);
  inspection.permitted = environment.search.options.allowed.permits(inspection.sha256);
  if (!inspection.permitted)
    inspection.refused.insert(inspection.refused.end(), examined.distrust.begin(), examined.distrust.end());
  if (environment.search.options.allowed.is_the_only_way() && !inspection.permitted &&
      !is_of_installation(path, environment))
    inspection.refused.push_back(reason_not_listed(path));
  deliver(arguments.value("--format") == "json"
              ? inspection_json(inspection)
              : inspection_page(inspection, Sentences{UnitPreferences{}}, environment.page),
          arguments, environment);
  return inspection.refused.empty() ? exit_done : exit_plugin_refused;
}

bool is_of_installation(const std::filesystem::path& file, const Environment& environment) {
  std::error_code error;
  const auto inside = std::filesystem::weakly_canonical(file, error);
  const auto folder = std::filesystem::weakly_canonical(environment.locations.plugins, error);
  return std::mismatch(folder.begin(), folder.end(), inside.begin(), inside.end()).first == folder.end();
}

}  // namespace ohmwright::cli
