#pragma once

#include <string>

#include <ohmwright/component/meter.hpp>
#include <ohmwright/conformance/kit/kit.hpp>
#include <ohmwright/plugin/registry.hpp>
#include <ohmwright/report/sentences.hpp>

#include "environment.hpp"

namespace ohmwright::cli {

/// A check of the conformance kit as lines of a page: whether it holds, and what is to be mended.
std::string check_lines(const KitCheck& check, const Sentences& say, int width);

/// Tries a kind of the registry out in a child process, printing check after check: what the plugin does there costs
/// this trial and no more, and is named. Gives the exit code.
int try_out_in_child(const Registry& registry, const FoundPlugin& plugin, const std::string& kind,
                     const MeterSet& meters, Environment& environment);

}  // namespace ohmwright::cli
