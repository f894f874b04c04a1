#include "job_safety.hpp"

#include <algorithm>
#include <optional>

#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/verdict/caution.hpp>
#include <ohmwright/verdict/caution_refusal.hpp>

#include "job_appliance.hpp"
#include "job_reading_judged.hpp"
#include "kind_files.hpp"

namespace ohmwright::cli {

std::string proof_command(const job::ProofStep& step) {
  using Form = job::ProofStep::Form;
  switch (step.form) {
    case Form::leak_to_earth:
      return "ohmwright job read " + step.part + "=VALUE";
    case Form::insulation_not_within:
    case Form::insulation_undecided:
    case Form::insulation_unread:
      return "ohmwright job read " + step.part + " insulation=200M --test 500V --proved-dead";
    case Form::circuit_insulation_unread:
    case Form::no_insulation_read:
    case Form::insulation_unproved:
      return "ohmwright job read PART insulation=200M --test 500V --proved-dead";
    case Form::earth_bond_not_within:
    case Form::earth_bond_undecided:
    case Form::earth_bond_unread:
    case Form::earth_bond_unproved:
      return "ohmwright job verify --earth-bond 0.12ohm --test-current 10A, or --earth-bond none";
    case Form::new_part_not_within:
    case Form::new_part_undecided:
    case Form::mended_unread:
      return "ohmwright job read " + step.place + (step.place == step.part ? " VALUE" : "=VALUE");
    case Form::condemned_for_good:
    case Form::opened_for_good:
      return "ohmwright job replace " + step.part + " --new NAME; or ohmwright job correct ENTRY";
    case Form::part_not_within:
      return "ohmwright job replace " + step.part + " --new NAME, or --mended TEXT, then ohmwright job read " +
             step.place + (step.place == step.part ? " VALUE" : "=VALUE") + "; or ohmwright job correct ENTRY";
    case Form::heat_did_not_end:
    case Form::heat_did_not_come:
      return "ohmwright job replace PART --new NAME, or --mended TEXT; or ohmwright job correct ENTRY";
    case Form::heat_end_unproved:
    case Form::heat_unproved:
      return "ohmwright job verify --forced-defrost ended --live-agreed; or ohmwright job correct ENTRY";
    case Form::new_part_unread:
      return "ohmwright job read " + step.place + "=VALUE";
    case Form::forced_defrost:
      return "ohmwright job verify --forced-defrost ended --live-agreed";
    case Form::log_shows_fault:
    case Form::log_unproved:
    case Form::log:
      break;
  }
  return "ohmwright job verify --before BEFORE.csv --log AFTER.csv (ohmwright job wait log)";
}

std::vector<std::string> caution_ids_of_step(std::string_view step) {
  const std::span<const std::string_view> ids = cautions_of_step(step);
  return {ids.begin(), ids.end()};
}

std::vector<std::string> bar_texts(const job::ServiceCall& call, const Sentences& say) {
  std::vector<std::string> texts;
  for (const job::ProofStep& bar : job::bars_to_energising(call)) texts.push_back(printable(proof_text(bar, say)));
  return texts;
}

void refuse_to_energise(const JobAtHand& job, const std::string& happened, std::string_view pattern,
                        const std::string& step) {
  const std::vector<std::string> bars =
      bar_texts(happened.empty() ? job.call : job::told_until(job.entries, happened), Sentences{UnitPreferences{}});
  if (bars.empty()) return;
  std::string all;
  for (const std::string& bar : bars) all += " " + bar;
  throw CautionRefusal(pattern, {{"step", step}, {"bars", all}});
}

void refuse_bad_limit(const JobAtHand& job, const std::string& happened, const Environment& environment) {
  const job::ServiceCall call = happened.empty() ? job.call : job::told_until(job.entries, happened);
  std::optional<Appliance> appliance;
  if (call.has_appliance()) appliance.emplace(appliance_of(call, environment));
  const auto limits_heat = [&](const std::string& id) {
    const std::optional<std::size_t> placed = appliance ? part_named(*appliance, id) : std::nullopt;
    const LoadedKind& kind = placed ? *appliance->parts[*placed].kind : open_kind(environment, id);
    const std::vector<std::string_view>& roles = kind.descriptor().roles;
    return std::find(roles.begin(), roles.end(), "limits-heat") != roles.end();
  };
  for (const job::ProofStep& step : job::open_proof(call))
    if ((step.form == job::ProofStep::Form::part_not_within || step.form == job::ProofStep::Form::opened_for_good) &&
        limits_heat(step.part))
      throw CautionRefusal(
          OHMWRIGHT_TEXT("no forced defrost while what limits its heat is not proved: {bar} See: ohmwright job verify"),
          {{"bar", printable(proof_text(step, Sentences{UnitPreferences{}}))}});
}

job::NewEntry agreement(const std::string& step, const Arguments& arguments) {
  if (!arguments.has("--live-agreed"))
    throw CautionRefusal(
        OHMWRIGHT_TEXT("{step} is read live: only if you are qualified for it, with insulated probes, one hand at a "
                       "time, somebody with you; if you are and agree to that, say --live-agreed, and it is recorded"),
        {{"step", step}});
  return {job::EntryForm::agreed,
          job::ContentWriter().text("step", step).text("caution", "live-measurement").content()};
}

}  // namespace ohmwright::cli
