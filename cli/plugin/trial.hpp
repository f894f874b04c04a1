#pragma once

#include <string>

#include <ohmwright/component/meter.hpp>
#include <ohmwright/plugin/registry.hpp>

#include "environment.hpp"
#include "plugin/trial_report.hpp"

namespace ohmwright::cli {

/// Tries a kind of the registry out in a child process, and tells `listener` check after check: what the plugin does
/// there costs this trial and no more, and is named. What the plugin itself prints goes to the standard error.
PluginTrial try_out_in_child(const Registry& registry, const FoundPlugin& plugin, const std::string& kind,
                             const MeterSet& meters, const TrialListener& listener, Environment& environment);

}  // namespace ohmwright::cli
