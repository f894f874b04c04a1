#pragma once

#include <filesystem>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/report/sentences.hpp>

#include "plugin/trial_diary.hpp"

namespace ohmwright::cli {

/// A kind or a file that was tried.
struct PluginTrial {
  std::filesystem::path file;
  std::string kind;  ///< empty: the file was refused before its kinds could be tried
  std::vector<TriedCheck> checks;
  std::vector<std::string> notes;
  int code = 0;  ///< the exit code that it asks for
};

/// The worst of two endings of trials: refused before to be mended before fine.
int worse_ending(int a, int b);

/// A check as lines of a page: whether it holds, and what is to be mended.
std::string check_lines(const TriedCheck& check, const Sentences& say, int width);

/// A note as lines of a page.
std::string note_lines(const std::string& note, int width);

/// By schemas/plugin-test.schema.json; the promises in the language of the page.
std::string trials_json(std::span<const PluginTrial> trials, const Sentences& say);

}  // namespace ohmwright::cli
