// A shared library like any other.
extern "C" __attribute__((visibility("default"))) int ohmwright_plugin_entry_v2() { return 0; }
