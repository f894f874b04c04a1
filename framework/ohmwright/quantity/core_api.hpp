#pragma once

/// Marks what ohmwright::core exports. Plugins and the engine see default visibility, everything else stays hidden.
#define OHMWRIGHT_CORE_API __attribute__((visibility("default")))
