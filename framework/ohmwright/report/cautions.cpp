#include <algorithm>

#include <ohmwright/report/page_cautions.hpp>
#include <ohmwright/report/verdict_report.hpp>
#include <ohmwright/verdict/caution.hpp>

namespace ohmwright {

namespace {

constexpr std::string_view cut_the_supply = "disconnect-power";

std::ptrdiff_t place_of(std::string_view id) {
  const std::span<const Caution> all = framework_cautions();
  return std::find_if(all.begin(), all.end(), [id](const Caution& caution) { return caution.id == id; }) - all.begin();
}

/// In the framework's order, which begins with cutting the supply; a kind's own come after it.
void put_in_order(std::vector<std::string_view>& ids) {
  std::stable_sort(ids.begin(), ids.end(),
                   [](std::string_view a, std::string_view b) { return place_of(a) < place_of(b); });
}

}  // namespace

std::vector<std::string_view> caution_ids_of_work(std::string_view step, const Descriptor& descriptor) {
  const std::span<const std::string_view> of_step = cautions_of_step(step);
  std::vector<std::string_view> ids(of_step.begin(), of_step.end());
  for (const ProcedureDescriptor& procedure : descriptor.procedures) {
    const auto has = [&](std::string_view id) {
      return std::find(procedure.cautions.begin(), procedure.cautions.end(), id) != procedure.cautions.end();
    };
    if (has("live-measurement")) continue;  // nothing is exchanged live, and too many cautions are read by nobody
    for (const std::string_view id : procedure.cautions)
      if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
  }
  put_in_order(ids);
  return ids;
}

std::vector<std::string_view> caution_ids(const Descriptor& descriptor, std::span<const Reading> readings,
                                          std::span<const Advice> advice) {
  std::vector<std::string_view> ids;
  const auto add = [&ids](std::string_view id) {
    if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
  };
  for (const Reading& reading : readings) {
    if (reading.supply == Supply::live) add("live-measurement");
    const auto procedure =
        std::find_if(descriptor.procedures.begin(), descriptor.procedures.end(),
                     [&](const ProcedureDescriptor& candidate) { return candidate.measurand == reading.measurand; });
    if (procedure != descriptor.procedures.end())
      std::for_each(procedure->cautions.begin(), procedure->cautions.end(), add);
    else if (!descriptor.procedures.empty())  // the same with the probes swapped: as the kind's first
      std::for_each(descriptor.procedures.front().cautions.begin(), descriptor.procedures.front().cautions.end(), add);
    if (reading.moisture == Moisture::wet) add("water-and-mains");
  }
  // Whatever is advised after a live reading, a hand goes to the part for it: to thaw it, to read it alone, to replace
  // it.
  const bool was_live = std::any_of(readings.begin(), readings.end(),
                                    [](const Reading& reading) { return reading.supply == Supply::live; });
  if (was_live && !advice.empty()) {
    add(cut_the_supply);
    add("prove-dead");
    const auto dead_work =
        std::find_if(descriptor.procedures.begin(), descriptor.procedures.end(), [](const ProcedureDescriptor& one) {
          return std::find(one.cautions.begin(), one.cautions.end(), cut_the_supply) != one.cautions.end();
        });
    if (dead_work != descriptor.procedures.end())
      std::for_each(dead_work->cautions.begin(), dead_work->cautions.end(), add);
  }
  for (const Advice& given : advice) {
    const std::uint16_t procedure = index_of(descriptor.procedures, descriptor.advice[given.text].procedure);
    if (procedure == not_found) continue;
    const auto& cautions = descriptor.procedures[procedure].cautions;
    std::for_each(cautions.begin(), cautions.end(), add);
  }
  put_in_order(ids);
  return ids;
}

CautionText caution_text(const Descriptor& descriptor, std::string_view id) {
  if (const Caution* caution = caution_named(id)) return {framework_text_domain, caution->brief, caution->english};
  const std::uint16_t own = index_of(descriptor.cautions, id);
  if (own != not_found)
    return {descriptor.text_domain, descriptor.cautions[own].brief, descriptor.cautions[own].english};
  return {framework_text_domain, id, id};
}

}  // namespace ohmwright
