#include "appliance/files.hpp"

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/report/appliance_words.hpp>

#include "kind_files.hpp"

namespace ohmwright::cli {

namespace {

/// The file of a shipped appliance. Who has none of these at hand is told of the way without.
std::string shipped_file(const Environment& environment, const std::string& name) {
  try {
    return named_file(environment.locations.appliances.string(), name, "appliance");
  } catch (const InputError& error) {
    throw InputError(std::string(error.what()) + "; or make a generic one from six questions: ohmwright appliance new");
  }
}

}  // namespace

std::string appliance_path(const Environment& environment, const std::string& name_or_file) {
  return is_path(name_or_file) ? name_or_file : shipped_file(environment, name_or_file);
}

Appliance open_appliance(const Environment& environment, const std::string& name_or_file) {
  Appliance appliance = in_readers_words(
      read_appliance(read_document_to_check(appliance_path(environment, name_or_file)), environment.registry));
  for (const PlacedPart& part : appliance.parts) open_kind(environment, std::string(part.kind->descriptor().id));
  return appliance;
}

}  // namespace ohmwright::cli
