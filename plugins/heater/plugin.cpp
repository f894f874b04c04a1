#include <ohmwright/component/plugin_entry.hpp>

#include "heater_kind.hpp"

namespace {

ohmwright::Kind* create(std::uint32_t /*index*/) { return new ohmwright::heater::HeaterKind; }

}  // namespace

OHMWRIGHT_PLUGIN("heater\tdefrost heater\theating element\telement\theater element\tresistance heater", create, 1)
