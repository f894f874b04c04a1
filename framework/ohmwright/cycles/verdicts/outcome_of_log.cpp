#include <ohmwright/cycles/verdicts/outcome_of_log.hpp>

namespace ohmwright::cycles {

Outcome outcome_of_log(const std::vector<LogVerdict>& verdicts) {
  if (asks_for_a_test(verdicts)) return Outcome::out_of_limits;
  const auto passed = [&](std::string_view rule) {
    const LogVerdict* verdict = find_verdict(verdicts, rule);
    return verdict != nullptr && verdict->outcome == Outcome::within_limits;
  };
  return passed("defrosts-come") && passed("defrost-end") ? Outcome::within_limits : Outcome::undecided;
}

}  // namespace ohmwright::cycles
