#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include <ohmwright/job/proof.hpp>

namespace ohmwright::testing_support {

using Form = job::ProofStep::Form;

/// Entry number `order`, of the minute `minute` after the first.
inline job::Told told_at(std::size_t order, std::size_t minute) {
  job::Told told;
  told.order = order;
  told.when = "2026-01-01T00:" + std::string(minute < 10 ? "0" : "") + std::to_string(minute) + ":00.000Z";
  return told;
}

/// As entered at once: the times are in the order of the entries.
inline job::Told told_at(std::size_t order) { return told_at(order, order); }

inline job::MeasuredValue insulation(const std::string& part, Outcome outcome, const job::Told& told,
                                     const std::string& rule = "insulation") {
  job::MeasuredValue value;
  static_cast<job::Told&>(value) = told;
  value.part = part;
  value.title = "The " + part;
  value.safety = {{rule, outcome}};
  return value;
}

inline job::MeasuredValue to_frame(Outcome leak, const job::Told& told) {
  job::MeasuredValue value = insulation({}, leak, told, std::string(job::leak_rule));
  value.place = "heater-to-frame";
  value.word = "heater-to-frame=0.1M";
  value.point = "Heater to its frame";
  return value;
}

inline job::ReplacedPart replaced(const std::string& part, const job::Told& told, bool earthed) {
  job::ReplacedPart exchanged;
  static_cast<job::Told&>(exchanged) = told;
  exchanged.part = part;
  exchanged.title = "The " + part;
  exchanged.tells_insulation = true;
  exchanged.has_earth = earthed;
  return exchanged;
}

inline job::Check check(job::CheckForm form, Outcome outcome, const job::Told& told) {
  job::Check done;
  static_cast<job::Told&>(done) = told;
  done.form = form;
  done.outcome = outcome;
  return done;
}

inline job::Check bond(Outcome outcome, const job::Told& told) {
  return check(job::CheckForm::earth_bond, outcome, told);
}

inline std::vector<Form> forms_of(const std::vector<job::ProofStep>& steps) {
  std::vector<Form> forms;
  for (const job::ProofStep& step : steps) forms.push_back(step.form);
  return forms;
}

inline std::vector<Form> bars_of(const job::ServiceCall& call) { return forms_of(job::bars_to_energising(call)); }

inline job::MeasuredValue reading_of(const std::string& part, const char* place, Outcome outcome, std::size_t order) {
  job::MeasuredValue value;
  static_cast<job::Told&>(value) = told_at(order);
  value.part = part;
  value.title = "The " + part;
  value.word = std::string(place) + "=5";
  value.outcome = outcome;
  return value;
}

inline std::vector<Form> closing_bars(const job::ServiceCall& call, const job::SafetyAsked& asked = {}) {
  return forms_of(bars_to_closing(call, asked));
}

}  // namespace ohmwright::testing_support
