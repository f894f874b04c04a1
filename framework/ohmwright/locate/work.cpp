#include <algorithm>
#include <string_view>

#include <ohmwright/locate/work.hpp>
#include <ohmwright/verdict/caution.hpp>

namespace ohmwright::locate {

namespace {

/// Adds a cover behind those that must be off before it.
void add_cover(const Appliance& appliance, const WorkState& state, std::size_t cover, std::vector<std::size_t>& order) {
  if (state.covers_off[cover] || std::find(order.begin(), order.end(), cover) != order.end()) return;
  for (const std::size_t before : appliance.covers[cover].behind) add_cover(appliance, state, before, order);
  order.push_back(cover);
}

/// Whether the refrigerant is flammable, or may be.
bool may_burn(const Appliance& appliance) {
  return appliance.refrigerant == "flammable" || appliance.refrigerant == "unknown";
}

bool needs_set_up(const WorkState& state, const Measurement& measurement) {
  return measurement.set_up && state.set_up != measurement.set_up;
}

}  // namespace

WorkState work_at_arrival(const Appliance& appliance) {
  WorkState state;
  state.covers_off.assign(appliance.covers.size(), false);
  return state;
}

bool is_live(const Appliance& appliance, const Measurement& measurement) {
  return appliance.test_points[measurement.test_point].probe != Probe::ohms ||
         (measurement.set_up && appliance.set_ups[*measurement.set_up].live);
}

bool may_heat(const Appliance& appliance, const Measurement& measurement) {
  if (!is_live(appliance, measurement)) return false;
  for (std::optional<std::size_t> at = measurement.set_up; at; at = appliance.set_ups[*at].based_on)
    if (const SetUp& set_up = appliance.set_ups[*at]; set_up.live || !set_up.states.empty()) return true;
  return false;
}

bool is_possible(const Appliance& appliance, const Measurement& measurement) {
  const bool ohms = appliance.test_points[measurement.test_point].probe == Probe::ohms;
  if (!measurement.set_up) return true;
  const SetUp& set_up = appliance.set_ups[*measurement.set_up];
  return !set_up.only_stated && !set_up.cools_down && !(ohms && set_up.live);
}

std::vector<std::size_t> covers_to_take_off(const Appliance& appliance, const WorkState& state,
                                            const Measurement& measurement) {
  std::vector<std::size_t> order;
  for (const std::size_t cover : appliance.test_points[measurement.test_point].behind)
    add_cover(appliance, state, cover, order);
  if (needs_set_up(state, measurement))
    for (const std::size_t cover : appliance.set_ups[*measurement.set_up].behind)
      add_cover(appliance, state, cover, order);
  return order;
}

double minutes_of(const Appliance& appliance, const WorkTimes& times, const WorkState& state,
                  const Measurement& measurement) {
  double minutes = appliance.test_points[measurement.test_point].minutes;
  const bool live = is_live(appliance, measurement);
  if (!live && state.power != WorkState::Power::dead) minutes += times.make_dead;
  const std::vector<std::size_t> covers = covers_to_take_off(appliance, state, measurement);
  for (const std::size_t cover : covers) minutes += appliance.covers[cover].minutes;
  // Covers are taken off and probes are placed without power, whatever is read.
  if (live && !covers.empty() && state.power != WorkState::Power::dead) minutes += times.make_dead;
  if (live && (state.power != WorkState::Power::live || !covers.empty())) minutes += times.make_live;
  if (needs_set_up(state, measurement)) minutes += appliance.set_ups[*measurement.set_up].minutes;
  // What another set-up left behind is ended first, which is taken to cost what bringing it about did.
  if (state.set_up && state.set_up != measurement.set_up) minutes += appliance.set_ups[*state.set_up].minutes;
  return minutes;
}

WorkState after(const Appliance& appliance, WorkState state, const Measurement& measurement) {
  for (const std::size_t cover : covers_to_take_off(appliance, state, measurement)) state.covers_off[cover] = true;
  state.set_up = measurement.set_up;
  if (state.set_up && appliance.set_ups[*state.set_up].cools_down) state.set_up.reset();  // nobody has to end it
  state.power = is_live(appliance, measurement) ? WorkState::Power::live : WorkState::Power::dead;
  return state;
}

std::vector<std::string> cautions_of_arrival(const Appliance& appliance) {
  std::vector<std::string> ids;
  if (may_burn(appliance)) ids.emplace_back("flammable-refrigerant");
  for (const std::string_view id : cautions_of_step("arrival")) ids.emplace_back(id);
  return ids;
}

std::vector<std::string> cautions_of(const Appliance& appliance, const WorkState& state,
                                     const Measurement& measurement) {
  std::vector<std::string> ids;
  const auto add = [&ids](std::string_view id) {
    if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.emplace_back(id);
  };
  if (is_live(appliance, measurement)) {
    for (const std::string_view id : cautions_of_step("read-live")) add(id);
  } else if (state.power != WorkState::Power::dead) {
    if (state.power == WorkState::Power::unknown && may_burn(appliance)) add("flammable-refrigerant");
    for (const std::string_view id : cautions_of_step("read-dead")) add(id);
  } else {
    add("prove-dead");  // as it was left: somebody may have plugged it in
  }
  // A cover is paid for once; what it hid stays sharp, hot or live in every step behind it.
  for (const std::size_t cover : covers_to_take_off(appliance, work_at_arrival(appliance), measurement))
    for (const std::string& id : appliance.covers[cover].cautions) add(id);
  if (measurement.set_up)
    for (const std::string& id : appliance.set_ups[*measurement.set_up].cautions) add(id);
  for (const std::string& id : appliance.test_points[measurement.test_point].cautions) add(id);
  return ids;
}

}  // namespace ohmwright::locate
