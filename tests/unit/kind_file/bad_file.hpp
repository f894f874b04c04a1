#pragma once

#include <ostream>
#include <string>
#include <vector>

#include "file_folder.hpp"
#include "kind_fixture.hpp"

namespace ohmwright::kind_file::testing_support {

/// coil.kind.json with something spoilt, and all that is to be said of it.
struct BadFile {
  std::string name;
  std::vector<Change> changes;
  std::vector<std::string> reasons;
};

inline void PrintTo(const BadFile& bad, std::ostream* out) { *out << bad.name; }

/// What is said where the kind is asked for, without the file's name before each.
inline std::vector<std::string> refusals_of(const BadFile& bad) {
  const FileFolder folder;
  folder.add_reader();
  const auto path = folder.add_file(coil_text(bad.changes), "test-coil/test-coil.kind.json");
  const std::string before = path.string() + ": kind file refused: ";
  std::string text = refusal(folder.registry(), "test-coil");
  std::vector<std::string> lines;
  while (!text.empty()) {
    const std::string line = text.substr(0, text.find('\n'));
    text.erase(0, line.size() + 1);
    lines.push_back(line.rfind(before, 0) == 0 ? line.substr(before.size()) : "without the file's name: " + line);
  }
  return lines;
}

}  // namespace ohmwright::kind_file::testing_support
