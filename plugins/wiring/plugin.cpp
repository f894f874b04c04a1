#include <ohmwright/component/plugin_entry.hpp>

#include "wiring_kind.hpp"

namespace {

ohmwright::Kind* create(std::uint32_t /*index*/) { return new ohmwright::wiring::WiringKind; }

}  // namespace

OHMWRIGHT_PLUGIN("wiring\twire\tlead\tconnector\tsplice\tjoint\tharness\tcrimp", create, 1)
