#include "rules/contacts.hpp"

#include "rules/contacts_texts.hpp"

namespace ohmwright::defrost_control {

namespace {

/// What the readings amount to.
struct Conclusion {
  Outcome outcome;
  ContactsText text;
  bool holds_back = false;
};

using Concluded = std::optional<Conclusion>;

constexpr Conclusion condemned(ContactsText text) { return {Outcome::out_of_limits, text}; }
constexpr Conclusion open_question(ContactsText text) { return {Outcome::undecided, text}; }

/// What is wrong at one position of a cam: the contact that belongs to it has to be closed, the other one open.
Concluded wrong_at(const Scene& scene, PlaceIndex place) {
  const ContactState& due = scene.grid.at(place == in_run ? of_run : of_defrost, place);
  const ContactState& other = scene.grid.at(place == in_run ? of_defrost : of_run, place);
  const bool run = place == in_run;
  if (other.is_surely_closed() && due.is_not_closed()) return condemned(run ? stuck_in_defrost : stuck_in_run);
  if (other.is_surely_closed()) return condemned(run ? defrost_contact_welded : run_contact_welded);
  if (due.is_not_closed()) return condemned(run ? run_contact_open : defrost_contact_open);
  return std::nullopt;
}

/// What no position of a cam can do.
Concluded wrong_anywhere(const Scene& scene) {
  const ContactState& defrost = scene.grid.at(of_defrost, anywhere);
  const ContactState& run = scene.grid.at(of_run, anywhere);
  if (defrost.is_surely_closed() && run.is_surely_closed()) return condemned(both_closed);
  if (defrost.is_not_closed() && run.is_not_closed()) return condemned(none_closed);
  return std::nullopt;
}

/// Without power a board's contact for the heater is open, whatever its program says.
Concluded wrong_at_rest(const Scene& scene) {
  for (const PlaceIndex place : {in_run, in_defrost, anywhere})
    if (scene.grid.at(of_defrost, place).is_surely_closed()) return condemned(relay_welded);
  return std::nullopt;
}

Concluded condemnation(const Scene& scene) {
  if (scene.is_board()) return wrong_at_rest(scene);
  if (!scene.is_timer()) {  // of a board unpowered contacts say nothing of its position; both closed is always wrong
    for (const PlaceIndex place : {in_run, in_defrost, anywhere})
      if (scene.grid.at(of_defrost, place).is_surely_closed() && scene.grid.at(of_run, place).is_surely_closed())
        return condemned(both_closed);
    return std::nullopt;
  }
  for (const PlaceIndex place : {in_run, in_defrost})
    if (const Concluded wrong = wrong_at(scene, place)) return wrong;
  return wrong_anywhere(scene);
}

bool output_right(const Scene& scene) { return scene.seen_output.on_in_defrost && scene.seen_output.off_in_run; }

bool timer_right(const Scene& scene) {
  const bool heats = scene.grid.at(of_defrost, in_defrost).is_surely_closed() || scene.seen_output.on_in_defrost;
  const bool heats_no_more = scene.grid.at(of_defrost, in_run).is_not_closed() || scene.seen_output.off_in_run;
  return heats && heats_no_more && scene.grid.at(of_run, in_run).is_surely_closed() &&
         scene.grid.at(of_run, in_defrost).is_not_closed();
}

bool open_at_rest(const Scene& scene) {
  return scene.grid.at(of_defrost, in_run).is_not_closed() || scene.grid.at(of_defrost, in_defrost).is_not_closed() ||
         scene.grid.at(of_defrost, anywhere).is_not_closed();
}

bool board_right(const Scene& scene) {
  return scene.seen_output.on_in_defrost && (scene.seen_output.off_in_run || open_at_rest(scene));
}

bool seen_at(const Scene& scene, PlaceIndex place) {
  return scene.grid.at(of_defrost, place).seen != ContactSeen::nothing ||
         scene.grid.at(of_run, place).seen != ContactSeen::nothing;
}

/// Ohms of a closed contact that has too many of them.
std::optional<double> resisting_ohms(const Scene& scene) {
  const std::optional<double> run = scene.grid.resisting(of_run);
  return run ? run : scene.grid.resisting(of_defrost);
}

Conclusion of_board(const Scene& scene) {
  if (board_right(scene)) return {Outcome::within_limits, board_switches};
  if (scene.seen_output.on_in_defrost) return open_question(board_not_seen_off);
  if (scene.seen_output.off_in_run && !scene.grid.any()) return open_question(board_not_seen_on);
  return scene.grid.any() ? open_question(board_at_rest) : Conclusion{Outcome::silent, board_not_read};
}

Conclusion of_timer(const Scene& scene) {
  if (timer_right(scene)) return {Outcome::within_limits, follow_position};
  if (scene.grid.any_of([](const ContactState& state) { return state.is_closed() && !state.lead_off; }))
    return open_question(connection_unstated);
  if (seen_at(scene, in_run) && seen_at(scene, in_defrost)) return open_question(one_contact_only);
  if (seen_at(scene, in_run)) return open_question(run_position_only);
  if (seen_at(scene, in_defrost)) return open_question(defrost_position_only);
  if (seen_at(scene, anywhere)) return open_question(position_unstated);
  if (output_right(scene) || scene.seen_output.on_in_defrost || scene.seen_output.off_in_run)
    return open_question(by_output_only);
  return {Outcome::silent, contacts_not_read};
}

Conclusion conclude(const Scene& scene) {
  if (scene.grid.any_of([](const ContactState& state) { return state.contradicted; }))
    return {Outcome::undecided, comes_and_goes, true};
  if (const Concluded wrong = condemnation(scene)) return *wrong;
  if (scene.grid.any_of([](const ContactState& state) { return state.seen == ContactSeen::poor; }))
    return {Outcome::undecided, poor_contact, true};
  if (const PreparedReading* refused = scene.grid.refused(); refused != nullptr && !scene.grid.any())
    return open_question(refused->shown == Shown::value ? range_too_coarse : range_too_low);
  if (resisting_ohms(scene)) return {Outcome::undecided, closed_contact_resists, true};
  if (scene.is_board()) return of_board(scene);
  if (scene.is_timer()) return of_timer(scene);
  return scene.grid.any() ? open_question(type_unknown) : Conclusion{Outcome::silent, contacts_not_read};
}

}  // namespace

void judge_contacts(const Scene& scene) {
  const Conclusion conclusion = conclude(scene);
  Finding& finding = scene.findings.add(contacts, conclusion.outcome, conclusion.text);
  finding.holds_back = conclusion.holds_back;
  if (conclusion.text == range_too_coarse || conclusion.text == range_too_low) {
    tell(finding, "range", ohms(scene.grid.refused()->range_full_scale));
    tell(finding, "doubt", ohms(scene.grid.refused()->meter_half_width));
    tell(finding, "open", ohms(poor_up_to_ohms));
  }
  if (conclusion.text != closed_contact_resists) return;
  tell(finding, "ohms", ohms(resisting_ohms(scene).value_or(0.0)));
  tell(finding, "limit", ohms(scene.most_ohms_of_contact()));
}

}  // namespace ohmwright::defrost_control
