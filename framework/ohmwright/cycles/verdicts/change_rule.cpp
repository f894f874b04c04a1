#include <string_view>

#include <ohmwright/cycles/verdicts/lasting_changes.hpp>
#include <ohmwright/cycles/verdicts/log_rules.hpp>

namespace ohmwright::cycles {

/// The last days against those before: what begins in the middle of a log and lasts to its end is asked about.
LogVerdict judge_lasting_change(const JudgedLog& log) {
  const LogAnalysis& analysis = log.analysis;
  // What heats on, and what stands, is told by rules of its own.
  if (analysis.lasting_heat || analysis.standstill) return LogVerdict{"lasting-change", "other-matter"};
  // Without a load a heater may be what warms a coil that was cold: that is asked first.
  const auto warm = no_cold(analysis);
  if (warm && (warm->is_seen_to_run || !other_coil(analysis))) {
    LogVerdict verdict = question("lasting-change", warm->is_seen_to_run ? "runs-warm" : "coil-warm",
                                  {{"coil", warm->coil_kelvin - melting_point_kelvin}});
    if (!warm->cabinet_kelvin) return verdict;
    verdict.text = warm->is_seen_to_run ? "runs-warm-cabinet" : "coil-warm-cabinet";
    verdict.arguments.push_back({"cabinet", *warm->cabinet_kelvin - melting_point_kelvin});
    return verdict;
  }
  if (const auto runs = runs_on(analysis)) {
    LogVerdict verdict =
        question("lasting-change", "runs-on", {{"from_second", runs->from_second}, {"lasted_second", runs->second}});
    const std::optional<OtherTemperature> cabinet = other_cabinet(analysis);
    if (!cabinet) return verdict;
    verdict.text = cabinet->is_warmer() ? "runs-on-warmer" : "runs-on-colder";
    verdict.arguments.push_back({"before", cabinet->kelvin_before - melting_point_kelvin});
    verdict.arguments.push_back({"after", cabinet->kelvin_after - melting_point_kelvin});
    return verdict;
  }
  if (const auto step = heater_step(analysis)) {
    const bool is_less = step->load_after < step->load_before;
    const std::string_view text = analysis.load_is_current ? "other-current" : (is_less ? "less-heat" : "more-heat");
    return question("lasting-change", text,
                    {{"from_second", step->from_second}, {"before", step->load_before}, {"after", step->load_after}});
  }
  const auto asked = [](std::string_view text, const OtherTemperature& other) {
    return question("lasting-change", text,
                    {{"from_second", other.from_second},
                     {"before", other.kelvin_before - melting_point_kelvin},
                     {"after", other.kelvin_after - melting_point_kelvin}});
  };
  if (const auto other = other_cabinet(analysis)) return asked(other->is_warmer() ? "warmer" : "colder", *other);
  if (const auto other = other_coil(analysis)) return asked(other->is_warmer() ? "warmer-coil" : "colder-coil", *other);
  if (const auto kelvin = cabinet_of_neither(analysis))
    return question("lasting-change", "neither-cabinet", {{"after", *kelvin - melting_point_kelvin}});
  return LogVerdict{"lasting-change", "none"};
}

}  // namespace ohmwright::cycles
