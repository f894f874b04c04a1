#include <ohmwright/component/plugin_entry.hpp>

#include "fan_motor_kind.hpp"

namespace {

ohmwright::Kind* create(std::uint32_t /*index*/) { return new ohmwright::fan_motor::FanMotorKind; }

}  // namespace

OHMWRIGHT_PLUGIN(
    "fan-motor\tfan\tevaporator fan\tcondenser fan\tevaporator fan motor\tcondenser fan motor\tblower motor", create, 1)
