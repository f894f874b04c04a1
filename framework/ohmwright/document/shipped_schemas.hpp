#pragma once

#include <ohmwright/document/schema.hpp>

namespace ohmwright {

// The schemas of the folder schemas/, compiled into the program: what it checks never depends on what is installed.
// Each is made ready when it is first asked for.

const Schema& appliance_schema();
/// Of readings at an appliance's test points.
const Schema& appliance_readings_schema();
const Schema& meter_schema();
const Schema& ratings_schema();
const Schema& readings_schema();
const Schema& vectors_schema();
/// Of a kind without C++.
const Schema& kind_schema();
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
const Schema& job_report_schema();

}  // namespace ohmwright
