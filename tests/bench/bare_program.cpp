// The floor for a whole `ohmwright check`: opens the same plugins and parses one JSON file, and does nothing else.
// usage: bare_program PLUGIN... JSON

#include <cstdio>
#include <dlfcn.h>
#include <fstream>

#include <nlohmann/json.hpp>

int main(int argc, char** argv) {
  if (argc < 3) return 2;
  for (int i = 1; i + 1 < argc; ++i)
    if (::dlopen(argv[i], RTLD_NOW | RTLD_LOCAL) == nullptr) return 1;
  std::ifstream file(argv[argc - 1]);
  const nlohmann::json document = nlohmann::json::parse(file);
  std::printf("%zu\n", document.size());
}
