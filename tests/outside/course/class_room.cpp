#include "class_room.hpp"

#include <unistd.h>

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/course/exercise.hpp>
#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/document/source_text.hpp>

namespace ohmwright::course::testing {

const Registry& registry() {
  static const Registry made({OHMWRIGHT_PLUGIN_FOLDER}, ::geteuid());
  return made;
}

std::string appliance_file(const std::string& name) {
  constexpr std::size_t largest = std::size_t{1} << 20U;
  return read_source(OHMWRIGHT_SOURCE_DIR "/framework/ohmwright/appliance/appliances/" + name + ".json", largest);
}

Appliance shipped(const std::string& name) {
  return read_appliance(parse_document(appliance_file(name), name), registry());
}

CourseKey made_key(const std::string& appliance, Lesson lesson, const std::string& seed, std::size_t count) {
  CourseKey key{appliance_file(appliance),
                read_meter(read_document(OHMWRIGHT_SOURCE_DIR "/framework/ohmwright/document/meters/basic.json")),
                {}};
  const Appliance made = read_appliance(parse_document(key.appliance_text, appliance), registry());
  const CourseSecret secret(passphrase, appliance + "\n" + seed);
  Workshop workshop(made, key.meter, secret);
  for (std::size_t i = 0; i < count; ++i) key.exercises.push_back(workshop.make({lesson, i, {}}));
  return key;
}

}  // namespace ohmwright::course::testing
