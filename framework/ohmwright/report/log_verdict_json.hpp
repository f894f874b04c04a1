#pragma once

#include <nlohmann/json_fwd.hpp>

#include <ohmwright/cycles/log_finding.hpp>
#include <ohmwright/cycles/verdicts/log_verdict.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

/// What a rule says of a log, for programs. Between source files of this area.
nlohmann::ordered_json log_verdict_json(const cycles::LogVerdict& verdict, const Sentences& say);

/// A finding of a log, for programs.
nlohmann::ordered_json log_finding_json(const cycles::LogFinding& finding);

}  // namespace ohmwright
