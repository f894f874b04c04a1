#include "part/wiring_ratings.hpp"

#include <algorithm>

#include <ohmwright/component/rated_figures.hpp>

namespace ohmwright::wiring {

namespace {

Form form_named(std::string_view name) {
  if (name == "connector") return Form::connector;
  return name == "splice" ? Form::splice : Form::lead;
}

Stranding stranding_named(std::string_view name) {
  if (name == "solid") return Stranding::solid;
  return name == "stranded" ? Stranding::stranded : Stranding::flexible;
}

void read_conductor(const ValueNode& ratings, RatedFigures& figures, WiringRatings& read) {
  if (const auto area = cross_section_named(RatedFigures::word(ratings, "cross_section")))
    read.conductor = Conductor{
        *area, RatedFigures::word(ratings, "metal") == "plain-copper" ? Metal::plain_copper : Metal::tinned_copper,
        stranding_named(RatedFigures::word(ratings, "stranding"))};
  read.length = figures.positive<Length>(ratings, "length");
  if (read.conductor) return;
  if (read.form == Form::lead) figures.refuse(ratings, "a lead needs its \"cross_section\", such as \"1\" (mm²)");
  if (read.length) figures.refuse(ratings, "length", "a length says nothing without a \"cross_section\"");
}

/// A drop at the rated current is a limit of ohms said in another way; of both the stricter holds.
void read_contact(const ValueNode& ratings, RatedFigures& figures, WiringRatings& read) {
  const auto stated = figures.positive<Resistance>(ratings, "contact_resistance");
  const auto drop = figures.positive<Voltage>(ratings, "voltage_drop");
  if (drop && !read.rated_current && ratings.find("rated_current") == nullptr)
    figures.refuse(ratings, "voltage_drop",
                   "a drop means nothing without the current at which it holds: \"rated_current\"");
  if (stated) read.contact_resistance = *stated;
  if (!drop || !read.rated_current) return;
  const Resistance by_drop = *drop / *read.rated_current;
  read.contact_resistance = stated ? std::min(*stated, by_drop) : by_drop;
}

}  // namespace

double WiringRatings::most(double metres, Temperature t) const {
  return most_per_metre() * metres * copper_factor(t) + contact_resistance.value();
}

double WiringRatings::least(double metres, Temperature t) const {
  const double copper = conductor ? copper_ohms_per_metre(*conductor) * metres * copper_factor(t) : 0.0;
  return copper + std::min(least_contact_ohms, contact_resistance.value());
}

std::optional<WiringRatings> read_ratings(const ValueNode& ratings, std::vector<Problem>& problems) {
  const std::size_t before = problems.size();
  RatedFigures figures(problems);
  WiringRatings read;
  read.form = form_named(RatedFigures::word(ratings, "form"));
  read.rated_current = figures.positive<Current>(ratings, "rated_current");
  read.temperature_rating = figures.figure<Temperature>(ratings, "temperature_rating");
  read_conductor(ratings, figures, read);
  read_contact(ratings, figures, read);
  read.earth_class = earth_class_named(RatedFigures::word(ratings, "earth_class"));
  read.insulation = figures.positive<Resistance>(ratings, "insulation").value_or(least_insulation(read.earth_class));
  if (problems.size() != before) return std::nullopt;
  return read;
}

}  // namespace ohmwright::wiring
