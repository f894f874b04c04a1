#pragma once

#include <vector>

#include "verb.hpp"

namespace ohmwright::cli {

// One file a verb; each gives its row of the table.
VerbSpec kinds_verb();
VerbSpec ratings_verb();
VerbSpec check_verb();
VerbSpec chart_verb();
VerbSpec curve_verb();
VerbSpec compare_verb();
VerbSpec appliance_verb();
VerbSpec locate_verb();
VerbSpec log_verb();
VerbSpec course_verb();
VerbSpec job_verb();
VerbSpec vectors_verb();
VerbSpec batch_verb();
VerbSpec meter_verb();
VerbSpec plugin_verb();

/// The table: every verb, in the order in which help shows them.
std::vector<VerbSpec> all_verbs();

}  // namespace ohmwright::cli
