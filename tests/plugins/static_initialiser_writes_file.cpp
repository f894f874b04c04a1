#include <cstdio>
#include <cstdlib>

#include <ohmwright/component/plugin_entry.hpp>

// Code that runs as soon as the library is opened. The ABI number does not fit, so it must never be opened.
namespace {
struct WritesFile {
  WritesFile() {
    if (const char* path = std::getenv("OHMWRIGHT_TEST_WITNESS"))
      if (std::FILE* file = std::fopen(path, "w")) std::fclose(file);
  }
};
const WritesFile writes_file;
}  // namespace

OHMWRIGHT_PLUGIN_STAMP(ohmwright::plugin_abi + 1, OHMWRIGHT_BUILD_TAG, "writes-file")
