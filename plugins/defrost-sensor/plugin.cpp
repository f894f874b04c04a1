#include <ohmwright/component/plugin_entry.hpp>

#include "sensor_kind.hpp"

namespace {

ohmwright::Kind* create(std::uint32_t /*index*/) { return new ohmwright::defrost_sensor::SensorKind; }

}  // namespace

OHMWRIGHT_PLUGIN(
    "defrost-sensor\tthermistor\tntc\tcoil sensor\tevaporator sensor\tdefrost thermistor\tcoil probe\tdefrost probe\t"
    "bin sensor",
    create, 1)
