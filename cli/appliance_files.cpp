#include "appliance_files.hpp"

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/document/named_file.hpp>

#include "kind_files.hpp"

namespace ohmwright::cli {

Appliance open_appliance(const Environment& environment, const std::string& name_or_file) {
  const std::string path = is_path(name_or_file)
                               ? name_or_file
                               : named_file(environment.locations.appliances.string(), name_or_file, "appliance");
  Appliance appliance = read_appliance(read_document(path), environment.registry);
  for (const PlacedPart& part : appliance.parts) open_kind(environment, std::string(part.kind->descriptor().id));
  return appliance;
}

}  // namespace ohmwright::cli
