#include <filesystem>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/document/checked_files.hpp>
#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/document/source_text.hpp>
#include <ohmwright/verdict/caution.hpp>

#include "temporary_folder.hpp"

namespace ohmwright {
namespace {

namespace fs = std::filesystem;

const fs::path root = OHMWRIGHT_SOURCE_DIR;

std::vector<std::string> json_files(const fs::path& folder) {
  std::vector<std::string> files;
  if (!fs::is_directory(folder)) return files;
  for (const auto& entry : fs::directory_iterator(folder))
    if (entry.path().extension() == ".json") files.push_back(entry.path().string());
  return files;
}

void expect_valid(const std::string& file, const Schema& schema) {
  const Document document = read_document(file);
  for (const Problem& p : schema.problems(document.root))
    ADD_FAILURE() << file << ':' << p.line << ": " << p.pointer << ": " << p.text;
}

TEST(ShippedFiles, RatingsAndVectorsOfEveryKindAreValid) {
  for (const auto& kind : fs::directory_iterator(root / "plugins")) {
    for (const std::string& file : json_files(kind.path() / "ratings")) expect_valid(file, ratings_schema());
    for (const std::string& file : json_files(kind.path() / "vectors")) expect_valid(file, vectors_schema());
  }
}

// What is known is not held against its schema at a start: each of these is, above or by the tests of its kind.
TEST(ShippedFiles, MetersAndRatingsAreKnownByTheirBytesAndTheirSchema) {
  for (const std::string& file : json_files(root / "framework/ohmwright/document/meters")) {
    const std::string text = read_source(file, DocumentLimits{}.bytes);
    EXPECT_TRUE(is_shipped_meter(text)) << file;
    EXPECT_FALSE(is_shipped_meter(text + '\n')) << file;
  }
  int found = 0;
  for (const auto& kind : fs::directory_iterator(root / "plugins")) {
    const fs::path schema_file = kind.path() / "ratings.schema.json";
    if (!fs::exists(schema_file)) continue;
    const std::string schema = read_source(schema_file.string(), DocumentLimits{}.bytes);
    for (const std::string& file : json_files(kind.path() / "ratings")) {
      const std::string text = read_source(file, DocumentLimits{}.bytes);
      EXPECT_TRUE(are_shipped_ratings(text, schema)) << file;
      EXPECT_FALSE(are_shipped_ratings(text, schema + ' ')) << file;
      EXPECT_FALSE(are_shipped_ratings(text + ' ', schema)) << file;
      ++found;
    }
  }
  EXPECT_GE(found, 20);
}

TEST(ShippedFiles, KindFilesAreValid) {
  int found = 0;
  for (const auto& kind : fs::directory_iterator(root / "plugins")) {
    const fs::path file = kind.path() / (kind.path().filename().string() + ".kind.json");
    if (!fs::exists(file)) continue;
    expect_valid(file.string(), kind_schema());
    ++found;
  }
  EXPECT_GE(found, 1);
}

// The file is what is built in: nobody can mend a caution in one place and not in the other.
TEST(ShippedFiles, TheCautionsAreThoseOfTheirFile) {
  const std::string file = (root / "framework/ohmwright/verdict/cautions.json").string();
  expect_valid(file, cautions_schema());
  const Document document = read_document(file);
  const auto text_in = [](const ValueNode& row, std::string_view name) { return *row.find(name)->text(); };
  const auto& rows = *document.root.find("cautions")->array();
  ASSERT_EQ(rows.size(), framework_cautions().size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Caution& built_in = framework_cautions()[i];
    EXPECT_EQ(text_in(rows[i], "id"), built_in.id);
    EXPECT_EQ(text_in(rows[i], "brief"), built_in.brief);
    EXPECT_EQ(text_in(rows[i], "text"), built_in.english);
    EXPECT_EQ(text_in(rows[i], "source"), built_in.source);
  }
  EXPECT_EQ(document.root.find("steps")->array()->size(), cautioned_steps().size());
}

TEST(ShippedFiles, ACautionWithoutASourceIsRefused) {
  const std::string caution =
      R"({"cautions": [{"id": "hot", "brief": "Hot", "text": "It is hot.", "source": "SOURCE"}], "steps": []})";
  const auto problems_with = [&](const std::string& source) {
    std::string text = caution;
    text.replace(text.find("SOURCE"), 6, source);
    return cautions_schema().problems(parse_document(text, "cautions").root).size();
  };
  EXPECT_EQ(problems_with("EN 50110-1 (from memory)"), 0U);
  EXPECT_EQ(problems_with("common practice, no source"), 0U);
  EXPECT_EQ(problems_with("everybody says so"), 1U);
  EXPECT_EQ(problems_with(""), 1U);
}

TEST(ShippedFiles, TheMetersAreWhatTheyAreCalled) {
  const std::vector<std::string> files = json_files(root / "framework/ohmwright/document/meters");
  EXPECT_EQ(files.size(), 5U);
  for (const std::string& file : files) {
    const Meter meter = read_meter(read_document(file));
    EXPECT_EQ(meter.name, fs::path(file).stem());
    EXPECT_EQ(meter.source, "generic class, common practice, no source");
    if (meter.name == "clamp") {
      EXPECT_GE(function_for(meter, Dimension::current)->ranges.back().full_scale.value_in_si(), 400.0);
      continue;
    }
    const MeterFunction* ohms = function_for(meter, Dimension::resistance, meter.name == "insulation-tester");
    ASSERT_NE(ohms, nullptr);
    EXPECT_GE(ohms->ranges.back().full_scale.value_in_si(), 40e6);
  }
}

// reference case: 11.00 kohm on 0.9 % + 3 counts of 0.01 kohm: a = 0.129 kohm (own arithmetic: 0.099 + 0.03)
TEST(ShippedFiles, TheBasicMeterBoundsElevenKiloohmByAHundredAndTwentyNineOhm) {
  const Meter meter = read_meter(read_document((root / "framework/ohmwright/document/meters/basic.json").string()));
  const MeterFunction* ohms = function_for(meter, Dimension::resistance);
  const AnyQuantity reading(Dimension::resistance, 11000.0);
  EXPECT_NEAR(accuracy_half_width(*range_for(*ohms, std::nullopt, reading), 11000.0), 129.0, 1e-9);
}

TEST(ShippedFiles, ReadingsAreDescribedAlikeInAllSchemas) {
  const auto text_of = [](const char* name) { return testing::bytes_of((root / "schemas" / name).string()); };
  const auto definition = [](const std::string& text, const std::string& name) {
    const std::size_t begin = text.find("    \"" + name + "\": {\n      \"description\"");
    return text.substr(begin, text.find("\n    }", begin) - begin);
  };
  for (const char* name : {"condition", "reading"}) {
    const std::string one = definition(text_of("readings.schema.json"), name);
    EXPECT_GT(one.size(), 100U);
    EXPECT_EQ(one, definition(text_of("vectors.schema.json"), name));
    EXPECT_EQ(one, definition(text_of("batch-line.schema.json"), name));
  }
}

TEST(ShippedFiles, TheVerdictOfTheDesignIsValid) {
  const Document verdict =
      parse_document(R"({"kind": "test-part", "part": "", "verdict": "within-limits", "probability_within": 0.9973,
    "reasons": [{"rule": "first", "verdict": "within-limits",
                 "measured": {"value": 10950.0, "unit": "ohm", "standard_uncertainty": 62.1},
                 "limits": {"lower": 9851.2, "upper": 12040.3, "unit": "ohm"}, "probability_within": 0.9973, "text": "fine"},
                {"rule": "second", "verdict": "silent", "text": "no reading", "probability_observed_if_within": 0.2}],
    "budget": [{"source": "part temperature", "share": 0.61}], "advice": [],
    "cautions": [{"id": "disconnect-power", "text": "unplug"}]})",
                     "verdict");
  EXPECT_TRUE(verdict_schema().problems(verdict.root).empty());
  const Document wrong =
      parse_document(R"({"kind": "test-part", "part": "", "verdict": "silent", "probability_within": 1.5,
    "reasons": [], "budget": [], "advice": [], "cautions": []})",
                     "verdict");
  EXPECT_EQ(verdict_schema().problems(wrong.root).size(), 3U);
}

}  // namespace
}  // namespace ohmwright
