#include "part/used_ratings.hpp"

namespace ohmwright::kind_file {

namespace {

void note(const Formula& formula, UsedRatings& used) {
  for (const std::uint16_t rating : formula.ratings)
    if (rating < used.size()) used[rating] = true;
}

void note(const Figure& figure, UsedRatings& used) {
  for (const FigureWay& way : figure.ways) {
    if (way.rating < used.size()) used[way.rating] = true;
    if (way.formula != nullptr) note(*way.formula, used);
  }
}

}  // namespace

UsedRatings ratings_used_by(const RuleForm& form, std::size_t count) {
  UsedRatings used(count, false);
  if (const LimitsForm* limits = form.limits()) {
    for (const Figure* figure :
         {&limits->lower, &limits->upper, &limits->nominal, &limits->load.voltage, &limits->load.other,
          &limits->below.figure, &limits->above.figure, &limits->movement.coefficient, &limits->movement.reference})
      note(*figure, used);
    if (limits->movement.formula != nullptr) note(*limits->movement.formula, used);
  } else if (const ContactForm* contact = form.contact()) {
    note(contact->lower_end, used);
    note(contact->upper_end, used);
  } else if (const InsulationForm* insulation = form.insulation()) {
    note(insulation->least, used);
  }
  return used;
}

}  // namespace ohmwright::kind_file
