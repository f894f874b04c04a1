// A shipped kind in a worker says what it says in the program, bit for bit.

#include <string>
#include <unistd.h>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/conformance/vector_check.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/document/verdict_record.hpp>
#include <ohmwright/plugin/guarded_judge.hpp>
#include <ohmwright/plugin/registry.hpp>

namespace ohmwright {
namespace {

const std::string plugins = OHMWRIGHT_PLUGIN_FOLDER;

class HeaterInAWorker : public testing::Test {
 protected:
  const LoadedKind& here_ = in_program().kind("heater");
  const LoadedKind& there_ = in_worker().kind("heater");
  const MeterSet meters_ = [] {
    const std::string folder = OHMWRIGHT_METER_FOLDER;
    std::vector<Meter> read{read_meter(read_document(folder + "/basic.json"))};
    for (const std::string& name : names_in_folder(folder))
      if (name != "basic") read.push_back(read_meter(read_document(folder + "/" + name + ".json")));
    return MeterSet(std::move(read));
  }();

  std::vector<VectorsDocument> documents() const {
    std::vector<VectorsDocument> read;
    const std::string folder = here_.vectors_folder().string();
    for (const std::string& file : names_in_folder(folder))
      read.push_back(read_vectors(read_document(folder + "/" + file + ".json"), here_.descriptor(), &meters_));
    return read;
  }

 private:
  static const Registry& in_program() {
    static const Registry registry({plugins}, ::geteuid());
    return registry;
  }
  static const Registry& in_worker() {
    static const Registry registry({"/no/installation", plugins + "/heater"}, ::geteuid(),
                                   {.allowed = {}, .worker = WorkerSettings{OHMWRIGHT_WORKER}});
    return registry;
  }
};

TEST_F(HeaterInAWorker, JudgesEveryVectorAlike) {
  std::size_t cases = 0;
  for (const VectorsDocument& document : documents())
    for (const VectorCase& vector : document.cases) {
      std::vector<Verdict> verdicts;
      for (const LoadedKind* kind : {&here_, &there_}) {
        const PreparedVector prepared = prepare_vector(*kind, vector, meters_);
        const Evidence evidence(kind->descriptor(), vector.readings, prepared.meters);
        const auto judged = judge_guarded(*prepared.part, kind->descriptor(), evidence, prepared.settings);
        ASSERT_TRUE(std::holds_alternative<Verdict>(judged)) << std::get<NotJudged>(judged).text;
        verdicts.push_back(std::get<Verdict>(judged));
      }
      EXPECT_TRUE(equal(verdicts[0], verdicts[1])) << vector.id;
      ++cases;
    }
  EXPECT_GT(cases, 20U);
}

TEST_F(HeaterInAWorker, DescribesExpectsModelsAndComparesAlike) {
  EXPECT_EQ(here_.descriptor().title, there_.descriptor().title);
  EXPECT_EQ(here_.descriptor().rules.size(), there_.descriptor().rules.size());
  EXPECT_EQ(here_.descriptor().ratings_schema, there_.descriptor().ratings_schema);
  const std::vector<VectorsDocument> read = documents();
  const VectorCase& vector = read.front().cases.front();
  const auto here = prepare_vector(here_, vector, meters_).part;
  const auto there = prepare_vector(there_, vector, meters_).part;
  const Situation cold;
  const auto expected_here = here->expect(0, cold);
  const auto expected_there = there->expect(0, cold);
  ASSERT_EQ(expected_here.has_value(), expected_there.has_value());
  if (expected_here) {
    EXPECT_EQ(expected_here->nominal, expected_there->nominal);
  }
  for (std::size_t mode = 0; mode <= here_.descriptor().fault_modes.size(); ++mode) {
    const auto index = mode == here_.descriptor().fault_modes.size() ? not_found : static_cast<std::uint16_t>(mode);
    std::vector<Element> elements_here;
    std::vector<Element> elements_there;
    EXPECT_EQ(here->electrical_model(index, cold, elements_here), there->electrical_model(index, cold, elements_there));
    ASSERT_EQ(elements_here.size(), elements_there.size());
    for (std::size_t i = 0; i < elements_here.size(); ++i)
      EXPECT_EQ(elements_here[i].value_in_si, elements_there[i].value_in_si);
  }
  const ComparisonContext context;
  const auto compared_here = here_.kind().compare(*here, *here, context);
  const auto compared_there = there_.kind().compare(*there, *there, context);
  ASSERT_EQ(compared_here.size(), compared_there.size());
  for (std::size_t i = 0; i < compared_here.size(); ++i) {
    EXPECT_EQ(compared_here[i].text.id, compared_there[i].text.id);
    EXPECT_EQ(compared_here[i].outcome, compared_there[i].outcome);
  }
}

TEST_F(HeaterInAWorker, NamesProblemsOfRatingsAtTheirPlace) {
  const Document document = parse_document("{\n  \"voltage\": \"120 ohm\",\n  \"power\": \"450 W\"\n}", "test");
  std::vector<Problem> here;
  std::vector<Problem> there;
  EXPECT_EQ(here_.make_part(&document.root, here), nullptr);
  EXPECT_EQ(there_.make_part(&document.root, there), nullptr);
  ASSERT_EQ(here.size(), there.size());
  ASSERT_FALSE(there.empty());
  EXPECT_EQ(here[0].text, there[0].text);
  EXPECT_EQ(there[0].line, 2);
  EXPECT_EQ(there[0].pointer, "/voltage");
}

}  // namespace
}  // namespace ohmwright
