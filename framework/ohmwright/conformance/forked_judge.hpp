#pragma once

#include <span>
#include <string>

#include <ohmwright/component/judgement.hpp>
#include <ohmwright/component/meter.hpp>
#include <ohmwright/document/verdict_record.hpp>

namespace ohmwright {

/// Judges in a forked child: readings, meters and settings go there as records and the verdict comes back as one, as
/// they will to a worker process; the part itself goes along with the fork. Throws Error (plugin) when the child ends
/// without an answer, saying how it ended.
RecordedVerdict judge_in_child(const Part& part, const Descriptor& descriptor, std::span<const Reading> readings,
                               const MeterSet& meters, const JudgeSettings& settings);

}  // namespace ohmwright
