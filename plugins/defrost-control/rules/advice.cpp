#include "rules/advice.hpp"

#include <algorithm>
#include <optional>

#include <ohmwright/verdict/decimal_slip.hpp>

#include "rules/contacts_texts.hpp"
#include "rules/in_circuit.hpp"

namespace ohmwright::defrost_control {

namespace {

/// The first finding of a rule with that outcome, or null.
const Finding* found(const Scene& scene, RuleIndex rule, Outcome outcome) {
  const auto& all = scene.findings.findings();
  const auto first =
      std::find_if(all.begin(), all.end(), [&](const Finding& f) { return f.rule == rule && f.outcome == outcome; });
  return first == all.end() ? nullptr : &*first;
}

bool is_read(const Scene& scene, MeasurandIndex measurand) {
  return any_of(scene.evidence, [measurand](const PreparedReading& r) { return r.measurand == measurand; });
}

bool is_ohms(const PreparedReading& r) { return is_of_contact(r) || r.measurand == motor; }

void advise_on_silent_contacts(const Scene& scene) {
  if (scene.is_board() && is_read(scene, output_voltage)) return;  // what its volts leave open comes below
  if (scene.is_board())
    scene.findings.advise(measure_output);
  else if (!scene.findings.has(in_circuit, Outcome::undecided))
    scene.findings.advise(read_contacts);
}

void advise_on_open_contacts(const Scene& scene, TextIndex text) {
  switch (text) {
    case comes_and_goes:
      scene.findings.advise(clean_and_read_again);
      return;
    case poor_contact:
      scene.findings.advise(clean_and_read_again);
      scene.findings.advise(measure_drop);
      return;
    case range_too_coarse:
    case range_too_low:
      scene.findings.advise(right_range);
      return;
    case closed_contact_resists:
      tell(scene.findings.advise(take_off_leads), "limit", ohms(scene.most_ohms_of_contact()));
      scene.findings.advise(clean_and_read_again);
      scene.findings.advise(measure_drop);
      return;
    case connection_unstated:
      scene.findings.advise(lift_a_lead);
      return;
    case position_unstated:
      scene.findings.advise(say_position);
      return;
    case one_contact_only:
    case by_output_only:
      scene.findings.advise(read_contacts);
      return;
    case run_position_only:
    case defrost_position_only:
      scene.findings.advise(read_other_position);
      return;
    case board_at_rest:
    case board_not_seen_on:
      scene.findings.advise(measure_output);
      return;
    case board_not_seen_off:
      scene.findings.advise(output_in_run);
      return;
    default:
      return;
  }
}

void advise_on_contacts(const Scene& scene) {
  if (scene.findings.has(contacts, Outcome::silent) && scene.ratings != nullptr) advise_on_silent_contacts(scene);
  if (const Finding* open = found(scene, contacts, Outcome::undecided)) advise_on_open_contacts(scene, open->text);
  if (any_of(scene.evidence, [](const PreparedReading& r) { return is_ohms(r) && is_live(r); }))
    scene.findings.advise(read_unplugged);
  if (!asks_to_read_alone(scene)) return;
  const bool open_unproved = any_of(scene.evidence, [](const PreparedReading& r) {
    const bool open = is_of_contact(r) ? is_not_closed(contact_seen(r)) : shows_more_than_range(r);
    return is_ohms(r) && is_in_circuit(r) && open && r.supply != Supply::proved_dead;
  });
  scene.findings.advise(open_unproved ? prove_dead : lift_a_lead);
}

void advise_on_motor(const Scene& scene) {
  const Finding* open = found(scene, motor_winding, Outcome::undecided);
  if (open == nullptr) {
    const bool unread =
        scene.is_timer() && !is_read(scene, motor) && !scene.findings.has(advance, Outcome::within_limits);
    if (unread) scene.findings.advise(read_motor);
    return;
  }
  if (open->holds_back)
    scene.findings.advise(clean_and_read_again);
  else if (open->meaning == ProbabilityMeaning::observed_if_within)
    scene.findings.advise(higher_range);
  else if (open->judged && any_of(scene.evidence, [](const PreparedReading& r) {
             return r.measurand == motor && r.condition(part_temperature) == nullptr;
           }))
    scene.findings.advise(motor_temperature);
  if (open->judged && any_of(scene.evidence, [](const PreparedReading& r) {
        return r.measurand == motor && r.connection == Connection::unstated;
      }))
    scene.findings.advise(lift_a_lead);
}

void advise_to_watch_longer(const Scene& scene, const Finding& finding) {
  Advice& advice = scene.findings.advise(watch_longer);
  tell(advice, "upper", *finding.limits.upper);
}

/// Whether what it was watched for stands on the share that the compressor ran.
bool is_watched_in_run(const Scene& scene) {
  return any_of(scene.evidence, [](const PreparedReading& r) {
    return r.measurand == advance_time && place_of(r) == in_run && r.condition(run_share) == nullptr;
  });
}

void advise_on_time(const Scene& scene) {
  const bool ratings_known = scene.ratings != nullptr;
  if (ratings_known && scene.findings.has(advance, Outcome::silent)) scene.findings.advise(watch_it_move);
  const Finding* open = found(scene, advance, Outcome::undecided);
  if (open != nullptr && is_read(scene, advance_time)) {
    const bool placeless = any_of(scene.evidence, [](const PreparedReading& r) {
      return r.measurand == advance_time && place_of(r) == anywhere;
    });
    if (placeless)
      scene.findings.advise(say_position);
    else if (ratings_known && !open->limits.upper)
      scene.findings.advise(say_limits);
    else if (open->meaning == ProbabilityMeaning::none)
      scene.findings.advise(is_watched_in_run(scene) ? count_run_time : say_frequency);
    else if (open->meaning == ProbabilityMeaning::observed_if_within)
      advise_to_watch_longer(scene, *open);
    else if (open->judged)
      scene.findings.advise(scene.is_timer() ? say_frequency : watch_it_move);
  }
  if (scene.findings.has(interval, Outcome::undecided)) scene.findings.advise(count_run_time);
  const bool may_stand = scene.is_timer() && open != nullptr && any_of(scene.evidence, [](const PreparedReading& r) {
                           return r.measurand == advance_time && stood(r) && !shaft_stood(r);
                         });
  if (may_stand) scene.findings.advise(watch_the_shaft);
}

void advise_on_output(const Scene& scene) {
  const bool without_line = any_of(scene.evidence, [](const PreparedReading& r) {
    return r.measurand == output_voltage && r.condition(line_voltage) == nullptr;
  });
  if (without_line) scene.findings.advise(say_line_voltage);
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (reading.measurand != output_voltage) continue;
    const OutputState state = output_state(reading, scene.evidence.sources(), scene.settings.confidence);
    if (state == OutputState::none) continue;
    if (place_of(reading) == anywhere)
      scene.findings.advise(say_position);
    else if (state == OutputState::ghost_or_on)
      scene.findings.advise(output_under_load);
    else if (state == OutputState::lossy)
      scene.findings.advise(measure_drop);
  }
  const bool drop_without_current = any_of(scene.evidence, [](const PreparedReading& r) {
    return r.measurand == voltage_drop && r.condition(load_current) == nullptr;
  });
  if (drop_without_current || scene.findings.has(contact_drop, Outcome::undecided))
    scene.findings.advise(clamp_current);
}

void advise_on_sensor(const Scene& scene) {
  const bool has_sensor = scene.ratings != nullptr && scene.ratings->sensor.has_value();
  if (!has_sensor) return;
  const bool stood_in = any_of(scene.evidence, [](const PreparedReading& r) {
    return r.measurand == sensor_voltage && r.condition(stand_in) != nullptr;
  });
  if (!is_read(scene, sensor_voltage))
    scene.findings.advise(read_sensor_supply);
  else if (stood_in && !scene.ratings->sensor->knows_pull_up())
    scene.findings.advise(say_pull_up);
}

bool is_welded(const Finding& finding) {
  return finding.text == run_contact_welded || finding.text == defrost_contact_welded || finding.text == both_closed ||
         finding.text == relay_welded;
}

/// What to look at before money is spent, by what was condemned.
void advise_before_buying(const Scene& scene) {
  const bool board = scene.is_board();
  const auto condemned = [&](RuleIndex rule) { return scene.findings.has(rule, Outcome::out_of_limits); };
  if (condemned(contact_drop)) scene.findings.advise(before_buying_contact);
  if (condemned(sensor_supply)) scene.findings.advise(before_buying_input);
  if (condemned(interval)) scene.findings.advise(before_buying_interval);
  if (condemned(advance) && !board) scene.findings.advise(find_why_it_stands);
  if (condemned(contacts) || condemned(output) || condemned(motor_winding) || condemned(in_circuit) ||
      (condemned(advance) && board))
    scene.findings.advise(board ? before_buying_board : before_buying_timer);
}

/// Everything that was read dead showed OL, or gave no beep: so does a broken test lead.
bool shows_only_over_range(const Scene& scene) {
  const auto shown = [&](bool over) {
    return any_of(scene.evidence, [over](const PreparedReading& r) {
      return is_ohms(r) && !is_live(r) && shows_more_than_range(r) == over;
    });
  };
  return shown(true) && !shown(false);
}

void advise_after_condemning(const Scene& scene) {
  if (shows_only_over_range(scene)) scene.findings.advise(touch_the_probes);
  const Finding* wrong = found(scene, contacts, Outcome::out_of_limits);
  if (wrong != nullptr && is_welded(*wrong)) scene.findings.advise(find_what_welded);
  if (scene.findings.has(in_circuit, Outcome::out_of_limits)) scene.findings.advise(lift_a_lead);
  advise_before_buying(scene);
  scene.findings.advise(scene.is_board() ? replacement_board : replacement_timer);
}

void drop_repeated(std::vector<Advice>& advice) {
  for (std::size_t i = 0; i < advice.size(); ++i)
    for (std::size_t k = advice.size(); k-- > i + 1;)
      if (advice[k].text == advice[i].text) advice.erase(advice.begin() + static_cast<std::ptrdiff_t>(k));
}

}  // namespace

void advise(const Scene& scene) {
  if (const std::optional<DecimalSlip> slip = decimal_slip(scene.findings.findings())) {
    Advice& advice = scene.findings.advise(misread_decimal);
    tell(advice, "shown", slip->shown);
    tell(advice, "right", slip->right_as);
  }
  const auto& all = scene.findings.findings();
  if (std::any_of(all.begin(), all.end(), [](const Finding& f) { return f.outcome == Outcome::out_of_limits; })) {
    advise_after_condemning(scene);
    return;
  }
  if (scene.ratings == nullptr) scene.findings.advise(say_ratings);
  advise_on_contacts(scene);
  advise_on_output(scene);
  advise_on_motor(scene);
  advise_on_time(scene);
  advise_on_sensor(scene);
  drop_repeated(scene.findings.advice());
}

}  // namespace ohmwright::defrost_control
