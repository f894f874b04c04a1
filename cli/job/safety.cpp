#include "job/safety.hpp"

#include <algorithm>
#include <optional>
#include <utility>

#include <ohmwright/component/role.hpp>
#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/verdict/caution.hpp>
#include <ohmwright/verdict/caution_refusal.hpp>

#include "job/appliance.hpp"
#include "job/reading_judged.hpp"
#include "job/search.hpp"
#include "kind_files.hpp"

namespace ohmwright::cli {

std::string proof_command(const job::ProofStep& step) {
  std::string command(job::row_of(step.form).command);
  const auto fill = [&command](std::string_view field, const std::string& value) {
    for (std::size_t at = command.find(field); at != std::string::npos; at = command.find(field, at + value.size()))
      command.replace(at, field.size(), value);
  };
  fill("{reading}", step.place + (step.place == step.part ? " VALUE" : "=VALUE"));
  fill("{part}", step.part);
  return command;
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

void refuse_for(const std::vector<job::ProofStep>& bars, std::string_view pattern, const std::string& step) {
  if (bars.empty()) return;
  std::string all;
  for (const std::string& bar : texts_of(bars, Sentences{UnitPreferences{}})) all += " " + bar;
  throw CautionRefusal(pattern, {{"step", step}, {"bars", all}});
}

}  // namespace

void refuse_to_energise(const JobAtHand& job, const std::string& happened, std::string_view pattern,
                        const std::string& step) {
  refuse_for(job::bars_to_energising(call_at(job, happened)), pattern, step);
}

void refuse_to_leave_it_plugged_in(const JobAtHand& job, const Environment& environment) {
  refuse_at_sealed_system(job.call, environment, "wait log");
  refuse_for(job::bars_to_leaving_it_plugged_in(job.call),
             OHMWRIGHT_TEXT("a log of days is an appliance that runs, and it is not proved safe to energise:"
                            "{bars} Leave it unplugged. See: ohmwright job verify"),
             {});
  refuse_for(heat_limits_unproved(job.call, environment),
             OHMWRIGHT_TEXT("in a log of days it heats by itself, and what limits its heat is not proved:{bars} "
                            "Leave it unplugged. See: ohmwright job verify"),
             {});
}

void write_and_end_unsafe_wait(JobAtHand& job, std::vector<job::NewEntry> entries, Environment& environment) {
  bool ends = false;
  if (job.call.state == job::JobState::waits_for_log) {
    const job::ServiceCall then = call_with(job, entries);
    ends = then.state == job::JobState::waits_for_log &&
           (stops_at_sealed_system(then, Arguments{}, environment) || !heat_limits_unproved(then, environment).empty());
  }
  if (ends)
    entries.push_back(
        {job::EntryForm::state, job::ContentWriter().text("state", job::name_of(job::JobState::open)).content()});
  job.write(entries);
  say_which(job, environment);
  if (ends)
    environment.out << paragraph(Sentences{UnitPreferences{}}(OHMWRIGHT_TEXT(
                                     "It waits for a log no longer: leave it unplugged until what stands "
                                     "against that is proved. See: ohmwright job verify")),
                                 environment.page.width);
}

void refuse_at_sealed_system(const job::ServiceCall& call, const Environment& environment, const std::string& step) {
  if (!stops_at_sealed_system(call, Arguments{}, environment)) return;
  throw CautionRefusal(
      OHMWRIGHT_TEXT(
          "{step}: what was seen speaks of the sealed refrigerant system, so a leak is suspected, and nothing "
          "is energised, heated or read live: ohmwright job close stopped. Once those licensed for it have "
          "seen to it, say what is no longer so: ohmwright job sign --no-symptom ID, or --looked CAUSE=fine"),
      {{"step", step}});
}

namespace {

/// The kind that the book has of a part, by its id: what was done to it last, else what was read of it.
std::string kind_in_book(const job::ServiceCall& call, const std::string& part) {
  if (const job::ReplacedPart* work = call.last_work_on(part); work != nullptr && !work->kind.empty())
    return work->kind;
  const job::MeasuredValue* read = job::latest(call.readings, [&part](const job::MeasuredValue& reading) {
    return reading.subject() == part && !reading.kind.empty();
  });
  return read == nullptr ? part : read->kind;
}

/// Whether a part limits the heat. Where another appliance was named since, the book says what it was; and what is of a
/// kind that is not installed may do anything.
bool limits_heat(const std::string& part, const job::ServiceCall& call, const Appliance* appliance,
                 const Environment& environment) {
  if (const std::optional<std::size_t> placed = appliance != nullptr ? part_named(*appliance, part) : std::nullopt)
    return plays(appliance->parts[*placed].kind->descriptor().roles, role::limits_heat);
  try {
    return plays(open_kind(environment, kind_in_book(call, part)).descriptor().roles, role::limits_heat);
  } catch (const InputError&) {
    return true;
  }
}

}  // namespace

std::vector<job::ProofStep> bars_to_heating(const job::ServiceCall& call, const Appliance* appliance,
                                            const Environment& environment) {
  return job::bars_to_heating(call,
                              [&](const std::string& part) { return limits_heat(part, call, appliance, environment); });
}

std::vector<job::ProofStep> bars_to_heating(const job::ServiceCall& call, const Environment& environment) {
  if (!call.has_appliance()) return bars_to_heating(call, nullptr, environment);
  const Appliance appliance = appliance_of(call, environment);
  return bars_to_heating(call, &appliance, environment);
}

std::vector<job::ProofStep> those_that_count(std::vector<job::ProofStep> limits, const job::ServiceCall& call) {
  if (!call.cools()) std::erase_if(limits, [](const job::ProofStep& step) { return !step.is_read_bad(); });
  return limits;
}

std::vector<job::ProofStep> heat_limits_unproved(const job::ServiceCall& call, const Environment& environment) {
  return those_that_count(bars_to_heating(call, environment), call);
}

void refuse_to_heat(const JobAtHand& job, const std::string& happened, std::string_view pattern,
                    const Environment& environment, const std::string& step) {
  refuse_for(bars_to_heating(call_at(job, happened), environment), pattern, step);
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
