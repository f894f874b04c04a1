#include <ohmwright/component/plugin_entry.hpp>

#include "control_kind.hpp"

namespace {

ohmwright::Kind* create(std::uint32_t /*index*/) { return new ohmwright::defrost_control::ControlKind; }

}  // namespace

OHMWRIGHT_PLUGIN(
    "defrost-control\tdefrost timer\ttimer\tcam timer\tdefrost board\tcontrol board\tadaptive defrost control", create,
    1)
