#pragma once

#include <ohmwright/document/schema.hpp>

namespace ohmwright {

// The schemas of the folder schemas/, compiled into the program: what it checks never depends on what is installed.
// Each is made ready when it is first asked for.

/// Of the list of plugins that the user permitted.
const Schema& allowed_plugins_schema();
const Schema& appliance_schema();
/// Of readings at an appliance's test points.
const Schema& appliance_readings_schema();
const Schema& meter_schema();
const Schema& ratings_schema();
const Schema& readings_schema();
const Schema& vectors_schema();
/// Of a kind without C++.
const Schema& kind_schema();
/// Of the framework's cautions, for tests.
const Schema& cautions_schema();
/// Of what plugin inspect and plugin test write, for tests.
const Schema& plugin_inspection_schema();
const Schema& plugin_test_schema();
/// Of a line of an exported job book.
const Schema& job_entry_schema();
/// Of what locate writes, which holds readings that can be read back.
const Schema& locate_schema();
/// Of what ohmwright writes, for tests.
const Schema& verdict_schema();
const Schema& chart_schema();
const Schema& control_schema();
const Schema& fitting_schema();
const Schema& comparison_schema();
const Schema& log_schema();
const Schema& log_comparison_schema();
const Schema& plan_schema();
/// Of what a student practises with.
const Schema& exercise_schema();
/// Of tagged parts with their reference values.
const Schema& lab_schema();
/// Of how much each mark counts.
const Schema& course_weights_schema();
/// Of a line that a batch reads, of the record it writes for it, and of its summary.
const Schema& batch_line_schema();
const Schema& batch_record_schema();
const Schema& batch_summary_schema();
const Schema& job_report_schema();

}  // namespace ohmwright
