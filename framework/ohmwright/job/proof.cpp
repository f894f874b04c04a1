#include <algorithm>
#include <utility>

#include <ohmwright/job/check_proof.hpp>
#include <ohmwright/job/leak_proof.hpp>
#include <ohmwright/job/part_proof.hpp>
#include <ohmwright/job/proof.hpp>
#include <ohmwright/job/safety_proof.hpp>

namespace ohmwright::job {

std::vector<ProofStep> open_proof(const ServiceCall& call) {
  std::vector<ProofStep> all;
  add_safety_proof(call, all);
  add_leaks_left(call, all);
  add_part_proof(call, all);
  add_failed_checks(call, all);
  add_open_new_parts(call, all);
  add_unlooked_causes(call, all);
  std::stable_partition(all.begin(), all.end(), [](const ProofStep& step) { return step.bars_energising(); });
  if (call.cools()) add_checks_to_make(call, all);
  return all;
}

std::vector<ProofStep> bars_to_energising(const ServiceCall& call) {
  std::vector<ProofStep> bars = open_proof(call);
  std::erase_if(bars, [](const ProofStep& step) { return !step.bars_energising(); });
  return bars;
}

std::vector<ProofStep> bars_to_leaving_it_plugged_in(const ServiceCall& call) {
  std::vector<ProofStep> bars = open_proof(call);
  std::erase_if(bars, [](const ProofStep& step) { return !step.bars_leaving_it_plugged_in(); });
  return bars;
}

bool insulation_is_proved(const ServiceCall& call) {
  const ReplacedPart* since = call.last_work();
  return std::any_of(call.readings.begin(), call.readings.end(),
                     [&](const MeasuredValue& reading) {
                       return reads_good_insulation(reading) && (since == nullptr || !reading.happened_before(*since));
                     }) &&
         bars_to_energising(call).empty();
}

std::vector<ProofStep> bars_to_heating(const ServiceCall& call,
                                       const std::function<bool(const std::string& part)>& limits_heat) {
  std::vector<ProofStep> bars = open_proof(call);
  add_unread_new_parts(call, bars);
  std::erase_if(bars, [&](const ProofStep& step) { return !step.leaves_part_unproved() || !limits_heat(step.part); });
  return bars;
}

std::vector<ProofStep> bars_to_closing(const ServiceCall& call, const SafetyAsked& asked) {
  std::vector<ProofStep> bars = open_proof(call);
  std::erase_if(bars, [](const ProofStep& step) { return !step.bars_closing(); });
  const auto of_this_visit = [&call](const Told& told) { return told.visit == call.visits; };
  const auto since_opening = [&](const Told& told) { return of_this_visit(told) && !call.is_from_before(told); };
  const bool is_written_afterwards = std::none_of(call.readings.begin(), call.readings.end(), since_opening);
  const auto is_proof = [&](const Told& told) {
    return is_written_afterwards ? of_this_visit(told) : since_opening(told);
  };
  if (std::any_of(call.replaced.begin(), call.replaced.end(), is_proof) ||
      std::none_of(call.readings.begin(), call.readings.end(), of_this_visit))
    return bars;
  const auto bars_already = [&](ProofForm form) {
    return std::any_of(bars.begin(), bars.end(), [form](const ProofStep& step) { return step.form == form; });
  };
  const bool has_insulation =
      std::any_of(call.readings.begin(), call.readings.end(),
                  [&](const MeasuredValue& reading) { return is_proof(reading) && reads_good_insulation(reading); });
  if (asked.insulation && !has_insulation && !bars_already(ProofForm::no_insulation_read))
    bars.push_back({ProofForm::insulation_unproved});
  const bool has_bond = std::any_of(call.checks.begin(), call.checks.end(), [&](const Check& check) {
    return is_proof(check) && check.form == CheckForm::earth_bond;
  });
  if (asked.earth_bond && !has_bond && !bars_already(ProofForm::earth_bond_unread))
    bars.push_back({ProofForm::earth_bond_unproved});
  return bars;
}

}  // namespace ohmwright::job
