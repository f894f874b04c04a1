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
    case Form::limit_unread:
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
  return texts_of(job::bars_to_energising(call), say);
}

std::vector<std::string> texts_of(const std::vector<job::ProofStep>& steps, const Sentences& say) {
  std::vector<std::string> texts;
  for (const job::ProofStep& step : steps) texts.push_back(printable(proof_text(step, say)));
  return texts;
}

namespace {

/// The call as it stood at that time; empty: now.
job::ServiceCall call_then(const JobAtHand& job, const std::string& happened) {
  return happened.empty() ? job.call : job::told_until(job.entries, happened);
}

void refuse_for(const std::vector<job::ProofStep>& bars, std::string_view pattern, const std::string& step) {
  if (bars.empty()) return;
  std::string all;
  for (const std::string& bar : texts_of(bars, Sentences{UnitPreferences{}})) all += " " + bar;
  throw CautionRefusal(pattern, {{"step", step}, {"bars", all}});
}

}  // namespace

void refuse_to_energise(const JobAtHand& job, const std::string& happened, std::string_view pattern,
                        const std::string& step) {
  refuse_for(job::bars_to_energising(call_then(job, happened)), pattern, step);
}

std::vector<job::ProofStep> bars_to_heating(const job::ServiceCall& call, const Appliance* appliance,
                                            const Environment& environment) {
  return job::bars_to_heating(call, [&](const std::string& id) {
    const std::optional<std::size_t> placed = appliance != nullptr ? part_named(*appliance, id) : std::nullopt;
    const LoadedKind& kind = placed ? *appliance->parts[*placed].kind : open_kind(environment, id);
    const std::vector<std::string_view>& roles = kind.descriptor().roles;
    return std::find(roles.begin(), roles.end(), "limits-heat") != roles.end();
  });
}

std::vector<job::ProofStep> bars_to_heating(const job::ServiceCall& call, const Environment& environment) {
  if (!call.has_appliance()) return bars_to_heating(call, nullptr, environment);
  const Appliance appliance = appliance_of(call, environment);
  return bars_to_heating(call, &appliance, environment);
}

void refuse_to_heat(const JobAtHand& job, const std::string& happened, std::string_view pattern,
                    const Environment& environment, const std::string& step) {
  refuse_for(bars_to_heating(call_then(job, happened), environment), pattern, step);
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
