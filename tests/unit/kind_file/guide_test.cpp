// The guide for authors of kind files names every caution and symptom that a file may use.

#include <fstream>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

#include <ohmwright/component/symptom.hpp>
#include <ohmwright/verdict/caution.hpp>

namespace ohmwright::kind_file {
namespace {

std::string guide() {
  std::ostringstream text;
  text << std::ifstream(OHMWRIGHT_KIND_FILE_GUIDE).rdbuf();
  return text.str();
}

bool names(const std::string& text, std::string_view id) {
  return text.find('`' + std::string(id) + '`') != std::string::npos;
}

TEST(Guide, NamesEveryCautionOfTheFramework) {
  const std::string text = guide();
  for (const Caution& caution : framework_cautions()) EXPECT_TRUE(names(text, caution.id)) << caution.id;
}

TEST(Guide, NamesEverySymptom) {
  const std::string text = guide();
  for (const Symptom& symptom : known_symptoms()) EXPECT_TRUE(names(text, symptom.id)) << symptom.id;
}

}  // namespace
}  // namespace ohmwright::kind_file
