#include <ohmwright/appliance/looks.hpp>

namespace ohmwright {

namespace {

const PartLook& part_look(const Appliance& appliance, std::size_t look) {
  return appliance.part_looks[look - appliance.outside_causes.size()];
}

}  // namespace

std::size_t number_of_looks(const Appliance& appliance) {
  return appliance.outside_causes.size() + appliance.part_looks.size();
}

LookWords look_words(const Appliance& appliance, std::size_t look) {
  if (const auto cause = outside_cause_of_look(appliance, look)) {
    const OutsideCause& of = appliance.outside_causes[*cause];
    return {of.id, of.title, of.check};
  }
  const PartLook& of = part_look(appliance, look);
  return {of.id, of.title, of.check};
}

double look_minutes(const Appliance& appliance, std::size_t look) {
  const auto cause = outside_cause_of_look(appliance, look);
  return cause ? appliance.outside_causes[*cause].minutes : part_look(appliance, look).minutes;
}

bool runs_for_look(const Appliance& appliance, std::size_t look) {
  return !outside_cause_of_look(appliance, look) && part_look(appliance, look).runs;
}

std::optional<std::size_t> outside_cause_of_look(const Appliance& appliance, std::size_t look) {
  return look < appliance.outside_causes.size() ? std::optional(look) : std::nullopt;
}

const std::vector<PartFault>* faults_of_look(const Appliance& appliance, std::size_t look) {
  return outside_cause_of_look(appliance, look) ? nullptr : &part_look(appliance, look).tells;
}

std::optional<std::size_t> look_named(const Appliance& appliance, const std::string& id) {
  for (std::size_t look = 0; look < number_of_looks(appliance); ++look)
    if (look_words(appliance, look).id == id) return look;
  return std::nullopt;
}

}  // namespace ohmwright
