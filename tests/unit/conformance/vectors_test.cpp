// Every kind that is built here, times its vectors: the contract is tested once and holds for all.

#include <algorithm>
#include <unistd.h>

#include <gtest/gtest.h>

#include <ohmwright/conformance/kit/kit.hpp>
#include <ohmwright/conformance/vector_check.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/plugin/guarded_judge.hpp>
#include <ohmwright/plugin/kind_index.hpp>
#include <ohmwright/plugin/registry.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/report/sentences.hpp>
#include <ohmwright/report/verdict_report.hpp>

namespace ohmwright {
namespace {

const Registry& registry() {
  static const Registry built({OHMWRIGHT_PLUGIN_FOLDER}, ::geteuid());
  return built;
}

const MeterSet& meters() {
  static const MeterSet set = [] {
    const std::string folder = OHMWRIGHT_METER_FOLDER;
    std::vector<Meter> read{read_meter(read_document(folder + "/basic.json"))};
    for (const std::string& name : names_in_folder(folder))
      if (name != "basic") read.push_back(read_meter(read_document(folder + "/" + name + ".json")));
    return MeterSet(std::move(read));
  }();
  return set;
}

std::vector<std::string> kinds() {
  std::vector<std::string> ids;
  for (const FoundPlugin& plugin : registry().plugins())
    for (const StampedKind& kind : plugin.kinds) ids.push_back(kind.id);
  return ids;
}

TEST(KindsBuiltHere, AreAllThere) { EXPECT_EQ(kinds().size(), static_cast<std::size_t>(OHMWRIGHT_KIND_COUNT)); }

// By whatever name a kind is asked for, the others need not be looked at (OhmwrightKindIndex.cmake).
TEST(KindsBuiltHere, AreInTheIndexByEveryName) {
  const KindIndex index = read_kind_index(OHMWRIGHT_PLUGIN_FOLDER, ::geteuid());
  for (const FoundPlugin& plugin : registry().plugins())
    for (const StampedKind& kind : plugin.kinds) {
      std::vector<std::string> names = kind.aliases;
      names.push_back(kind.id);
      for (const std::string& name : names) {
        const std::string* const id = index.id_of(spoken_name(name));
        EXPECT_EQ(id == nullptr ? "" : *id, kind.id) << name;
      }
    }
}

class KindVectors : public ::testing::TestWithParam<std::string> {
 protected:
  void SetUp() override {
    const std::string folder = kind_.vectors_folder().string();
    for (const std::string& file : names_in_folder(folder)) {
      documents_.push_back(read_vectors(read_document(folder + "/" + file + ".json"), kind_.descriptor(), &meters()));
      const std::vector<VectorCase>& cases = documents_.back().cases;
      cases_.insert(cases_.end(), cases.begin(), cases.end());
    }
    ASSERT_FALSE(cases_.empty());
  }

  const LoadedKind& kind_ = registry().kind(GetParam());
  std::vector<VectorsDocument> documents_;
  std::vector<VectorCase> cases_;
};

TEST_P(KindVectors, GiveTheVerdictTheyExpect) {
  for (const VectorCase& vector : cases_)
    for (const std::string& difference : check_vector(kind_, vector, meters()))
      ADD_FAILURE() << vector.id << ": " << difference;
}

TEST_P(KindVectors, ReachEveryOutcomeThatARuleDeclares) {
  for (const std::string& missing : outcomes_without_a_vector(kind_, cases_, meters())) ADD_FAILURE() << missing;
}

/// Among it the promises of conformance/kit/contract.hpp; `plugin test` runs the same.
TEST_P(KindVectors, LeaveTheKitNothingToMend) {
  run_kit(kind_, meters(),
          {[](const KitCheck&) {},
           [](const KitCheck& check) {
             for (const std::string& mend : check.to_mend) ADD_FAILURE() << check.title << ": " << mend;
           }});
}

/// Every page of every case: whatever a rule tells has to be printable.
TEST_P(KindVectors, PrintOnEveryPage) {
  const Sentences say{UnitPreferences{}};
  for (const VectorCase& vector : cases_) {
    SCOPED_TRACE(vector.id);
    const PreparedVector prepared = prepare_vector(kind_, vector, meters());
    const Evidence evidence(kind_.descriptor(), vector.readings, prepared.meters);
    const std::variant<Verdict, NotJudged> judged =
        judge_guarded(*prepared.part, kind_.descriptor(), evidence, prepared.settings);
    ASSERT_TRUE(std::holds_alternative<Verdict>(judged)) << std::get<NotJudged>(judged).text;
    const VerdictReport report{.descriptor = kind_.descriptor(),
                               .verdict = std::get<Verdict>(judged),
                               .evidence = evidence,
                               .readings = vector.readings,
                               .part_name = vector.ratings_name,
                               .part_title = vector.ratings_name,
                               .meter_title = prepared.meters.named("").title,
                               .every_rule = true,
                               .cautions_in_full = true};
    for (const int width : {40, 80})  // a field that was not told stays in its braces
      EXPECT_EQ(verdict_page(report, say, {.width = width}).find('{'), std::string::npos);
    EXPECT_FALSE(verdict_html(report, nullptr, say).empty());
    EXPECT_FALSE(verdict_json(report, say).empty());
  }
}

/// Whether the kind is a file, of a few rules whose arithmetic is tested elsewhere.
bool is_of_a_file(const std::string& id) {
  for (const FoundPlugin& plugin : registry().plugins())
    if (plugin.kinds.front().id == id) return plugin.kind_file != nullptr;
  return false;
}

TEST_P(KindVectors, NamePlentyOfOutsideSources) {
  // The project's own arithmetic ("ours: …") and what everybody does are no outside sources.
  const auto outside = std::count_if(cases_.begin(), cases_.end(), [](const VectorCase& vector) {
    return vector.source.rfind("common practice", 0) != 0 && vector.source.rfind("ours", 0) != 0;
  });
  const bool of_a_file = is_of_a_file(GetParam());
  EXPECT_GE(outside, of_a_file ? 6 : 8);
  EXPECT_GE(cases_.size(), of_a_file ? 12U : 25U);
}

INSTANTIATE_TEST_SUITE_P(Built, KindVectors, ::testing::ValuesIn(kinds()), [](const auto& kind) {
  std::string name = kind.param;
  for (char& letter : name)
    if (letter == '-') letter = '_';
  return name;
});

}  // namespace
}  // namespace ohmwright
