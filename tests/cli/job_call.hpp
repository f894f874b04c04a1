#pragma once

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>

#include "program.hpp"

namespace ohmwright::testing {

/// A folder with a book of its own.
class JobCall : public ::testing::Test {
 protected:
  JobCall() {
    std::string name = "/tmp/ohmwright-job-XXXXXX";
    folder_ = ::mkdtemp(name.data());
  }
  ~JobCall() override { std::filesystem::remove_all(folder_); }

  Ran run(std::vector<std::string> words, const std::string& input = {}) const {
    words.insert(words.begin(), "job");
    return run_program(words, {"XDG_DATA_HOME=" + folder_, "LOGNAME=tester"}, input);
  }
  /// Runs what must be done.
  std::string done(const std::vector<std::string>& words) const {
    const Ran ran = run(words);
    EXPECT_EQ(ran.exit_code, 0) << words[0] << ": " << ran.err;
    return ran.out;
  }
  std::string refused(const std::vector<std::string>& words) const {
    const Ran ran = run(words);
    EXPECT_EQ(ran.exit_code, 2) << words[0] << ": " << ran.out;
    return in_one_line(ran.err);
  }
  /// A refusal whose further lines, of a list, are set in.
  static std::string in_one_line(std::string refusal) {
    for (const std::string_view item : {"\n  - ", "\n  "})
      for (std::size_t at = refusal.find(item); at != std::string::npos; at = refusal.find(item))
        refusal.replace(at, item.size(), " ");
    EXPECT_EQ(std::count(refusal.begin(), refusal.end(), '\n'), 1) << refusal;
    return refusal;
  }
  /// Id of the last entry of that form in the book.
  std::string id_of_last(const std::string& form) const {
    done({"export", "--out", folder_ + "/book.jsonl"});
    std::ifstream book(folder_ + "/book.jsonl");
    std::string id;
    for (std::string line; std::getline(book, line);)
      if (const nlohmann::json entry = nlohmann::json::parse(line); entry["form"] == form) id = entry["id"];
    return id;
  }
  nlohmann::json report() const {
    const Ran ran = run({"report", "--format", "json"});
    const Document document = parse_document(ran.out, "report", {.text_bytes = 8192, .control_characters = true});
    for (const Problem& problem : job_report_schema().problems(document.root))
      ADD_FAILURE() << problem.pointer << ": " << problem.text;
    return nlohmann::json::parse(ran.out);
  }

  std::string folder_;
};

}  // namespace ohmwright::testing
