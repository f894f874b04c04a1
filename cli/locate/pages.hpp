#pragma once

#include <string>
#include <vector>

#include <ohmwright/locate/search.hpp>
#include <ohmwright/report/locate_report.hpp>

namespace ohmwright::cli {

/// What a search says now. `work` must live as long as the report.
LocateReport locate_report(locate::Search& search, const locate::WorkState& work, const std::string& meter_title,
                           bool cautions_in_full);

/// What the program's exit says of a search: done where a part is named, else undecided.
int exit_of_search(const locate::Standing& standing);

/// The search's headline and its step, the first of the report: what it can hurt, what to do. One screen. Remarks that
/// are among those `told` are left out; the others join them.
std::string step_page(const LocateReport& report, std::vector<std::string>& told, const Sentences& say,
                      const PageStyle& style);

/// Why the first step of the report: how much of the doubt it takes away, the possible faults, what each would show.
std::string why_page(const LocateReport& report, const Sentences& say, const PageStyle& style);

}  // namespace ohmwright::cli
