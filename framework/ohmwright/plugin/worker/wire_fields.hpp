#pragma once

#include <type_traits>

#include <ohmwright/component/evidence_parts.hpp>
#include <ohmwright/component/kind.hpp>
#include <ohmwright/document/record_values.hpp>

// The fields of everything that crosses to and from a worker, each list once for both directions: `archive(a, b, …)`
// writes them or reads them, in this order.

namespace ohmwright::wire {

template <class Given, class Row>
concept Is = std::is_same_v<std::remove_const_t<Given>, Row>;

template <class Archive, Is<TextEntry> T>
void fields(Archive& archive, T& x) {
  archive(x.id, x.english);
}
template <class Archive, Is<MeasurandDescriptor> T>
void fields(Archive& archive, T& x) {
  archive(x.id, x.title, x.dimension, x.default_unit, x.takes_contact_state, x.takes_bare_number, x.from, x.to);
}
template <class Archive, Is<ConditionDescriptor> T>
void fields(Archive& archive, T& x) {
  archive(x.id, x.title, x.option, x.dimension, x.default_unit, x.default_half_width, x.default_half_width_source,
          x.of);
}
template <class Archive, Is<RuleDescriptor> T>
void fields(Archive& archive, T& x) {
  archive(x.id, x.title, x.essential, x.outcomes, x.source, x.texts, x.condemns_for_good);
}
template <class Archive, Is<ProcedureDescriptor> T>
void fields(Archive& archive, T& x) {
  archive(x.id, x.title, x.measurand, x.minutes, x.steps, x.cautions);
}
template <class Archive, Is<CautionDescriptor> T>
void fields(Archive& archive, T& x) {
  archive(x.id, x.brief, x.english, x.source);
}
template <class Archive, Is<AdviceDescriptor> T>
void fields(Archive& archive, T& x) {
  archive(x.id, x.english, x.procedure);
}
template <class Archive, Is<SymptomEffect> T>
void fields(Archive& archive, T& x) {
  archive(x.symptom, x.probability);
}
template <class Archive, Is<FaultModeDescriptor> T>
void fields(Archive& archive, T& x) {
  archive(x.id, x.title, x.prior_weight, x.prior_source, x.symptoms, x.looks_upstream);
}
template <class Archive, Is<StateDescriptor> T>
void fields(Archive& archive, T& x) {
  archive(x.id, x.title, x.values, x.option);
}
template <class Archive, Is<ErrorSourceDescriptor> T>
void fields(Archive& archive, T& x) {
  archive(x.id, x.title, x.shape);
}
template <class Archive, Is<ChartAxis> T>
void fields(Archive& archive, T& x) {
  archive(x.measurand, x.condition, x.from, x.to, x.logarithmic, x.state);
}
template <class Archive, Is<Descriptor> T>
void fields(Archive& archive, T& x) {
  archive(x.id, x.title, x.aliases, x.text_domain, x.roles, x.terminals, x.measurands, x.conditions, x.states, x.rules,
          x.advice, x.procedures, x.cautions, x.fault_modes, x.charts, x.control_member, x.ratings_schema,
          x.error_sources);
}

template <class Archive, Is<ErrorSource> T>
void fields(Archive& archive, T& x) {
  archive(x.id, x.of, x.shape, x.degrees_of_freedom);
}
template <class Archive, Is<PreparedCondition> T>
void fields(Archive& archive, T& x) {
  archive(x.condition, x.value);
}
template <class Archive, Is<StateValue> T>
void fields(Archive& archive, T& x) {
  archive(x.state, x.value);
}
template <class Archive, Is<ConditionValue> T>
void fields(Archive& archive, T& x) {
  archive(x.condition, x.value_in_si);
}
template <class Archive, Is<PreparedReading> T>
void fields(Archive& archive, T& x) {
  archive(x.reading, x.measurand, x.shown, x.value, x.displayed, x.range_full_scale, x.lead_resistance,
          x.lead_half_width, x.meter_half_width, x.connection, x.moisture, x.supply, x.conditions, x.states);
}

template <class Archive, Is<EvidenceParts> T>
void fields(Archive& archive, T& x) {
  archive(x.readings, x.sources, x.labels);
}

template <class Archive, Is<Limits> T>
void fields(Archive& archive, T& x) {
  archive(x.lower, x.upper);
}
template <class Archive, Is<FindingArgument> T>
void fields(Archive& archive, T& x) {
  archive(x.name, x.value);
}
template <class Archive, Is<Finding> T>
void fields(Archive& archive, T& x) {
  archive(x.rule, x.outcome, x.text, x.arguments, x.holds_back, x.measured, x.measured_uncertainty, x.limits, x.meaning,
          x.probability, x.judged, x.judged_lower, x.judged_upper);
}
template <class Archive, Is<Advice> T>
void fields(Archive& archive, T& x) {
  archive(x.text, x.arguments, x.probability_decided);
}

template <class Archive, Is<Situation> T>
void fields(Archive& archive, T& x) {
  archive(x.conditions, x.states, x.excitation);
}
template <class Archive, Is<Expectation> T>
void fields(Archive& archive, T& x) {
  archive(x.nominal, x.limits, x.model_standard_error, x.share_closed);
}
template <class Archive, Is<Element> T>
void fields(Archive& archive, T& x) {
  archive(x.type, x.from, x.to, x.value_in_si, x.relative_half_width, x.probability_closed);
}
template <class Archive, Is<MeasuredRow> T>
void fields(Archive& archive, T& x) {
  archive(x.condition, x.condition_half_width, x.observed, x.value_in_si, x.meter_standard_uncertainty,
          x.half_width_assumed);
}
template <class Archive, Is<RowRemark> T>
void fields(Archive& archive, T& x) {
  archive(x.row, x.left_out, x.text, x.arguments);
}
template <class Archive, Is<FittedFigure> T>
void fields(Archive& archive, T& x) {
  archive(x.name, x.value, x.standard_uncertainty, x.unit);
}
template <class Archive, Is<FittedRatings> T>
void fields(Archive& archive, T& x) {
  archive(x.form, x.ratings, x.figures, x.residuals, x.standard_deviation, x.from, x.to);
}
template <class Archive, Is<Fitting> T>
void fields(Archive& archive, T& x) {
  archive(x.forms, x.remarks);
}
template <class Archive, Is<ComparisonContext> T>
void fields(Archive& archive, T& x) {
  archive(x.situation, x.from, x.to);
}
template <class Archive, Is<EquivalenceFinding> T>
void fields(Archive& archive, T& x) {
  archive(x.outcome, x.text, x.arguments, x.is_of_any_part);
}
template <class Archive, Is<Problem> T>
void fields(Archive& archive, T& x) {
  archive(x.pointer, x.line, x.text);
}

}  // namespace ohmwright::wire
