// The kit's checks of what a kind says of itself.

#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <unistd.h>

#include <ohmwright/component/plugin_entry.hpp>
#include <ohmwright/conformance/kit/elf_exports.hpp>
#include <ohmwright/conformance/kit/kit_checks.hpp>
#include <ohmwright/document/ratings_document.hpp>
#include <ohmwright/plugin/sealed_copy.hpp>
#include <ohmwright/plugin/trust.hpp>

namespace ohmwright {

namespace {

constexpr std::array<std::string_view, 2> boundary{"ohmwright_plugin_stamp", plugin_entry_name};

bool has(const ProcedureDescriptor& procedure, std::string_view caution) {
  return std::find(procedure.cautions.begin(), procedure.cautions.end(), caution) != procedure.cautions.end();
}

/// Ohms, farads and henries are read on a part without supply.
bool is_read_dead(Dimension dimension) {
  return dimension == Dimension::resistance || dimension == Dimension::capacitance ||
         dimension == Dimension::inductance;
}

void look_at_measurand(const Descriptor& descriptor, const MeasurandDescriptor& measurand,
                       std::vector<std::string>& gaps) {
  bool any = false;
  for (const ProcedureDescriptor& procedure : descriptor.procedures) {
    if (procedure.measurand != measurand.id) continue;
    any = true;
    const std::string name = "procedure " + std::string(procedure.id);
    if (procedure.steps.empty()) gaps.push_back(name + " has no steps");
    if (!(procedure.minutes > 0.0)) gaps.push_back(name + " takes no minutes; locate weighs steps by them");
    if (!is_read_dead(measurand.dimension) || has(procedure, "live-measurement")) continue;
    for (const char* caution : {"disconnect-power", "prove-dead"})  // as of a kind file
      if (!has(procedure, caution))
        gaps.push_back(name + " reads " + std::string(measurand.id) + " and does not say " + caution +
                       "; add it to its cautions");
  }
  if (any) return;
  const bool with_another = std::any_of(
      descriptor.procedures.begin(), descriptor.procedures.end(), [&](const ProcedureDescriptor& procedure) {
        const std::uint16_t other = index_of(descriptor.measurands, procedure.measurand);
        return other != not_found && descriptor.measurands[other].dimension == measurand.dimension;
      });
  if (!with_another)
    gaps.push_back("measurand " + std::string(measurand.id) +
                   " has no procedure; say step by step how it is read, with its cautions");
}

}  // namespace

std::vector<std::string> wrong_exports(const LoadedKind& kind) {
  const TrustedFile file = open_trusted(kind.path(), ::geteuid());
  const auto exported = elf_exports(FileBytes(file.descriptor.number(), file.size));
  if (!exported) return {"its table of symbols cannot be read"};
  std::vector<std::string> wrong;
  for (const std::string& symbol : *exported)
    if (std::find(boundary.begin(), boundary.end(), symbol) == boundary.end())
      wrong.push_back("it exports " + symbol + "; build it with ohmwright_add_plugin, which hides all but two");
  for (const std::string_view symbol : boundary)
    if (std::find(exported->begin(), exported->end(), symbol) == exported->end())
      wrong.push_back("it does not export " + std::string(symbol) + "; the macro OHMWRIGHT_PLUGIN writes it");
  return wrong;
}

std::vector<std::string> gaps_of_descriptor(const Descriptor& descriptor) {
  std::vector<std::string> gaps;
  for (const MeasurandDescriptor& measurand : descriptor.measurands) look_at_measurand(descriptor, measurand, gaps);
  for (const ConditionDescriptor& condition : descriptor.conditions)
    if (condition.default_half_width > 0.0 && condition.default_half_width_source.empty())
      gaps.push_back("condition " + std::string(condition.id) + " takes a half-width that has no source");
  for (const FaultModeDescriptor& mode : descriptor.fault_modes)
    if (mode.prior_source.empty())
      gaps.push_back("fault mode " + std::string(mode.id) + " has a weight without a source; an assumed one says so");
  if (descriptor.fault_modes.empty())
    gaps.emplace_back("it has no fault mode; locate then never finds the part at fault");
  return gaps;
}

std::vector<std::string> wrong_schema(const Descriptor& descriptor) {
  (void)ratings_schema_of(descriptor);  // throws what is wrong
  return {};
}

std::vector<std::string> wrong_unknown_part(const LoadedKind& kind) {
  std::vector<Problem> problems;
  (void)kind.make_part(nullptr, problems);
  if (problems.empty()) return {};
  return {"make_part(nullptr) names a problem: " + problems.front().text +
          "; give a part whose rules say what they need"};
}

}  // namespace ohmwright
