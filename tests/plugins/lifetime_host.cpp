#include <cstdlib>
#include <exception>
#include <filesystem>
#include <iostream>
#include <string>
#include <sys/stat.h>
#include <unistd.h>

#include <ohmwright/plugin/guarded_judge.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/registry.hpp>

#include "support/no_readings.hpp"

// A small program that does with plugins what can go wrong between two compilers: virtual calls, exceptions of the
// plugin's own types, objects that outlive everything else.  usage: lifetime_host FOLDER-OF-FIXTURES

namespace {

namespace fs = std::filesystem;
using namespace ohmwright;

int failures = 0;

void expect(const std::string& what, const std::string& found, const std::string& expected) {
  if (found == expected) return;
  ++failures;
  std::cerr << what << ": found \"" << found << "\", expected \"" << expected << "\"\n";
}

/// A folder that only this user can write to, with copies of the fixtures.
fs::path trusted_copy(const fs::path& fixtures) {
  std::string name = (fs::canonical(fs::temp_directory_path()) / "ohmwright-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("cannot make a folder");
  for (const char* fixture : {"good", "throws_in_factory", "throws_int_in_factory", "throws_in_judge"}) {
    const std::string file = std::string(fixture) + ".ohmplug";
    fs::copy_file(fixtures / file, fs::path(name) / file);
    ::chmod((fs::path(name) / file).c_str(), 0644);
  }
  return name;
}

std::string refusal(const Registry& registry, const std::string& kind) {
  try {
    registry.kind(kind);
    return "none";
  } catch (const PluginError& error) {
    return error.reasons().front();
  }
}

std::string judged(const Part& part, const Descriptor& descriptor) {
  Findings findings;
  const auto failure = run_rules(part, descriptor, fixture::no_readings(descriptor), {}, findings);
  return failure ? failure->text : std::to_string(findings.findings().size()) + " finding";
}

void run(const fs::path& folder) {
  std::shared_ptr<const Part> good;
  std::shared_ptr<const Part> throwing;
  Descriptor descriptor;
  {
    const Registry registry({folder}, ::geteuid());
    expect("plugins found", std::to_string(registry.plugins().size()), "4");
    std::vector<Problem> problems;
    good = registry.kind("good-part").make_part(nullptr, problems);
    throwing = registry.kind("throws-in-judge").make_part(nullptr, problems);
    descriptor = registry.kind("good-part").descriptor();
    expect("built by", registry.plugins().front().compiler + "\n", registry.plugins().back().compiler + "\n");
    expect("factory", refusal(registry, "throws-in-factory"),
           "making the kind \"throws-in-factory\" failed: no wish to be made");
    expect("factory", refusal(registry, "throws-int-in-factory"),
           "making the kind \"throws-int-in-factory\" failed: something was thrown that is no exception");
    std::cout << "program by " OHMWRIGHT_COMPILER_TEXT ", plugins by " << registry.plugins().front().compiler << '\n';
  }
  fs::remove_all(folder);
  expect("judged after the registry", judged(*good, descriptor), "1 finding");
  expect("judged after the registry", judged(*throwing, descriptor),
         "not judged: the plugin failed: the curve has no value there");
  good.reset();
  throwing.reset();
  expect("text of a plugin without a holder", std::string(descriptor.title), "Part for tests");
}

}  // namespace

int main(int argc, char** argv) {
  try {
    if (argc != 2) throw std::runtime_error("usage: lifetime_host FOLDER-OF-FIXTURES");
    run(trusted_copy(argv[1]));
  } catch (const std::exception& error) {
    std::cerr << "lifetime_host: " << error.what() << '\n';
    return 1;
  }
  return failures == 0 ? 0 : 1;
}
