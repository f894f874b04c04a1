// Writes the manual pages and what shells complete, from the table of verbs: ohmwright_pages FOLDER. Run by the build.

#include <filesystem>
#include <fstream>
#include <iostream>
#include <string>
#include <vector>

#include "completion.hpp"
#include "man_page.hpp"
#include "verbs.hpp"

namespace {

bool write(const std::filesystem::path& file, const std::string& text) {
  std::filesystem::create_directories(file.parent_path());
  std::ofstream out(file, std::ios::binary);
  out << text << std::flush;
  if (!out) std::cerr << "cannot write " << file << '\n';
  return static_cast<bool>(out);
}

}  // namespace

int main(int argc, char** argv) {
  using namespace ohmwright::cli;
  if (argc != 2) {
    std::cerr << "usage: ohmwright_pages FOLDER\n";
    return 2;
  }
  const std::filesystem::path folder = argv[1];
  const std::vector<VerbSpec> verbs = all_verbs();
  bool fine = write(folder / "man" / "man1" / "ohmwright.1", program_manual(verbs, OHMWRIGHT_VERSION));
  for (const VerbSpec& verb : verbs)
    fine = write(folder / "man" / "man1" / ("ohmwright-" + std::string(verb.name) + ".1"),
                 verb_manual(verb, OHMWRIGHT_VERSION)) &&
           fine;
  fine = write(folder / "bash-completion" / "completions" / "ohmwright", bash_completion(verbs)) && fine;
  fine = write(folder / "zsh" / "site-functions" / "_ohmwright", zsh_completion(verbs)) && fine;
  fine = write(folder / "fish" / "vendor_completions.d" / "ohmwright.fish", fish_completion(verbs)) && fine;
  return fine ? 0 : 1;
}
