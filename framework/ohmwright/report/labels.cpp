#include <array>
#include <utility>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/labels.hpp>

namespace ohmwright {

namespace {

constexpr std::array<std::pair<std::string_view, std::string_view>, 8> source_names{{
    {"meter-accuracy", OHMWRIGHT_TEXT("the meter's accuracy")},
    {"meter-gain", OHMWRIGHT_TEXT("the meter's scale, shared by its readings")},
    {"meter-counts", OHMWRIGHT_TEXT("the meter's last digits")},
    {"lead-resistance", OHMWRIGHT_TEXT("the test leads")},
    {"watch", OHMWRIGHT_TEXT("the watch, read to the minute")},
    {"repeatability", OHMWRIGHT_TEXT("the scatter of the repeated readings")},
    {"stated-uncertainty", OHMWRIGHT_TEXT("the uncertainty you gave")},
    {"model", OHMWRIGHT_TEXT("the curve itself: how well its figures describe the part")},
}};

}  // namespace

std::string outcome_label(Outcome outcome, const Sentences& sentences) {
  switch (outcome) {
    case Outcome::within_limits:
      return sentences(OHMWRIGHT_TEXT("IN SPEC"));
    case Outcome::out_of_limits:
      return sentences(OHMWRIGHT_TEXT("OUT OF SPEC"));
    case Outcome::undecided:
      return sentences(OHMWRIGHT_TEXT("CAN'T TELL YET"));
    case Outcome::silent:
      return sentences(OHMWRIGHT_TEXT("not judged"));
  }
  return {};
}

std::string source_label(const ErrorSource& source, const Descriptor& descriptor, const Sentences& sentences) {
  for (const auto& [id, name] : source_names)
    if (id == source.id) return sentences(name);
  const std::uint16_t condition = index_of(descriptor.conditions, source.id);
  if (condition != not_found)
    return sentences.in_domain(descriptor.text_domain, descriptor.conditions[condition].title);
  const std::uint16_t own = index_of(descriptor.error_sources, source.id);
  if (own != not_found) return sentences.in_domain(descriptor.text_domain, descriptor.error_sources[own].title);
  return source.id;
}

}  // namespace ohmwright
