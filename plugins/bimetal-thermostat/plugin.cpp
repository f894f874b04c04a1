#include <ohmwright/component/plugin_entry.hpp>

#include "thermostat_kind.hpp"

namespace {

ohmwright::Kind* create(std::uint32_t /*index*/) { return new ohmwright::bimetal_thermostat::ThermostatKind; }

}  // namespace

OHMWRIGHT_PLUGIN(
    "bimetal-thermostat\tbimetal\tdefrost thermostat\tterminator\tdefrost terminator\tbi-metal\tdefrost limit\t"
    "termination thermostat",
    create, 1)
