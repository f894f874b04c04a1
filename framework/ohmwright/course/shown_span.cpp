#include <algorithm>
#include <cmath>
#include <vector>

#include <ohmwright/course/shown_span.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_words.hpp>

namespace ohmwright::course {

namespace {

/// Ways of a smaller share are not what a part is like [0…1].
constexpr double least_share_shown = 0.05;

/// On the scale of ohms.
struct OnScale {
  double low = 0.0;
  double high = 0.0;
  double middle = 0.0;

  void take_in(const OnScale& other) {
    low = std::min(low, other.low);
    high = std::max(high, other.high);
    middle = 0.5 * (low + high);
  }
};

double ohms_at(double on_scale) {
  return std::max(0.0, locate::scale_of(Probe::ohms).linear_below * std::sinh(on_scale));
}

/// From end to end of the tolerance: a rectangle's half-width is √3 standard uncertainties (JCGM 100:2008, 4.3.7). One
/// value with its spread is even in ohms, a share of a wider range on the scale.
OnScale reach_of(const locate::PredictedOutcome& way, bool is_alone) {
  constexpr double widest_linear = 0.36;  // as `part_model` has it, and a little for the meter
  const double half_width = std::sqrt(3.0) * way.uncertainty;
  if (!is_alone || half_width > widest_linear) return {way.mean - half_width, way.mean + half_width, way.mean};
  const locate::Scale scale = locate::scale_of(Probe::ohms);
  const double ohms = half_width / scale.uncertainty_at(ohms_at(way.mean), 1.0);
  return {scale.at(ohms_at(way.mean) - ohms), scale.at(ohms_at(way.mean) + ohms), way.mean};
}

}  // namespace

ShownSpan shown_span(locate::Prober& prober, const locate::Candidate& candidate,
                     const locate::Measurement& measurement) {
  double open = 0.0;
  std::vector<const locate::PredictedOutcome*> values;  // each once
  for (const locate::Instance& instance : prober.instances(candidate))
    for (const locate::PredictedOutcome& way : prober.predict(instance, measurement)) {
      if (way.form == locate::PredictedOutcome::Form::over_range) open += instance.weight * way.weight;
      if (way.form != locate::PredictedOutcome::Form::value || way.weight < least_share_shown) continue;
      const bool is_known = std::any_of(values.begin(), values.end(), [&](const auto* known) {
        return known->mean == way.mean && known->uncertainty == way.uncertainty;
      });
      if (!is_known) values.push_back(&way);
    }
  std::optional<OnScale> conducting;
  for (const locate::PredictedOutcome* way : values) {
    const OnScale reach = reach_of(*way, values.size() == 1);
    if (conducting)
      conducting->take_in(reach);
    else
      conducting = reach;
  }
  ShownSpan span;
  span.may_be_open = open >= least_share_shown;
  if (conducting && open <= 1.0 - least_share_shown)
    span.ohms = {ohms_at(conducting->low), ohms_at(conducting->high), ohms_at(conducting->middle)};
  return span;
}

std::string span_text(const ShownSpan& span, const Sentences& say) {
  if (!span.ohms) return "OL";
  constexpr double one_value = 1.5;  // up to this ratio of both ends it is "about" one value
  const double small = locate::scale_of(Probe::ohms).linear_below;
  const ShownSpan::Ohms& ohms = *span.ohms;
  const std::string text =
      ohms.high <= one_value * std::max(ohms.low, small)
          ? shown_value_text(ohms.middle, Probe::ohms, say)
          : say(OHMWRIGHT_TEXT("{low} to {high}"), {{"low", shown_value_text(ohms.low, Probe::ohms, say)},
                                                    {"high", shown_value_text(ohms.high, Probe::ohms, say)}});
  return span.may_be_open ? text + " / OL" : text;
}

}  // namespace ohmwright::course
