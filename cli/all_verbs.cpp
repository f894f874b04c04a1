#include "verbs.hpp"

namespace ohmwright::cli {

std::vector<VerbSpec> all_verbs() {
  return {check_verb(),     locate_verb(),  log_verb(),   job_verb(),   course_verb(),
          kinds_verb(),     ratings_verb(), chart_verb(), curve_verb(), compare_verb(),
          appliance_verb(), vectors_verb(), batch_verb(), meter_verb(), plugin_verb()};
}

}  // namespace ohmwright::cli
