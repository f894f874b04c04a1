// Every kind that is built here, times its vectors: the contract is tested once and holds for all.

#include <algorithm>
#include <cmath>
#include <unistd.h>

#include <gtest/gtest.h>

#include <ohmwright/conformance/forked_judge.hpp>
#include <ohmwright/conformance/vector_check.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/plugin/guarded_judge.hpp>
#include <ohmwright/plugin/registry.hpp>
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

  Verdict judged(const PreparedVector& prepared, const std::vector<Reading>& readings) const {
    const Evidence evidence(kind_.descriptor(), readings, prepared.meters);
    return judge(*prepared.part, kind_.descriptor(), evidence, prepared.settings);
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

TEST_P(KindVectors, GiveTheSameVerdictInAChildThroughRecords) {
  for (const VectorCase& vector : cases_) {
    const PreparedVector prepared = prepare_vector(kind_, vector, meters());
    const Verdict here = judged(prepared, vector.readings);
    const RecordedVerdict there =
        judge_in_child(*prepared.part, kind_.descriptor(), vector.readings, prepared.meters, prepared.settings);
    EXPECT_TRUE(equal(here, there.verdict)) << vector.id;
  }
}

TEST_P(KindVectors, ReachEveryOutcomeThatARuleDeclares) {
  for (const std::string& missing : outcomes_without_a_vector(kind_, cases_, meters())) ADD_FAILURE() << missing;
}

TEST_P(KindVectors, GiveTheSameVerdictTwice) {
  for (const VectorCase& vector : cases_) {
    const PreparedVector prepared = prepare_vector(kind_, vector, meters());
    EXPECT_TRUE(equal(judged(prepared, vector.readings), judged(prepared, vector.readings))) << vector.id;
  }
}

TEST_P(KindVectors, NeverGiveAVerdictWithoutAReason) {
  for (const VectorCase& vector : cases_) {
    const Verdict verdict = judged(prepare_vector(kind_, vector, meters()), vector.readings);
    bool spoke = false;
    for (const Finding& finding : verdict.findings) spoke = spoke || finding.outcome == verdict.outcome;
    EXPECT_TRUE(spoke || verdict.outcome == Outcome::undecided) << vector.id;
    EXPECT_EQ(verdict.findings.empty(), false) << vector.id;
  }
}

TEST_P(KindVectors, LetEveryRuleSpeakOrSayWhyNot) {
  const Descriptor& descriptor = kind_.descriptor();
  for (const VectorCase& vector : cases_) {
    const Verdict verdict = judged(prepare_vector(kind_, vector, meters()), vector.readings);
    for (std::size_t rule = 0; rule < descriptor.rules.size(); ++rule) {
      const bool found = std::any_of(verdict.findings.begin(), verdict.findings.end(),
                                     [rule](const Finding& finding) { return finding.rule == rule; });
      EXPECT_TRUE(found) << vector.id << ": " << descriptor.rules[rule].id;
    }
  }
}

/// Names of the fields of a sentence pattern: "{measured}".
std::vector<std::string> fields_of(std::string_view pattern) {
  std::vector<std::string> names;
  for (std::size_t open = pattern.find('{'); open != std::string_view::npos; open = pattern.find('{', open + 1)) {
    const std::size_t close = pattern.find('}', open);
    if (close == std::string_view::npos) break;
    names.emplace_back(pattern.substr(open + 1, close - open - 1));
  }
  return names;
}

TEST_P(KindVectors, GiveEverySentenceItsArguments) {
  const Descriptor& descriptor = kind_.descriptor();
  const auto expect_fields = [](std::string_view pattern, const FindingArguments& arguments) {
    for (const std::string& name : fields_of(pattern))
      EXPECT_TRUE(std::any_of(arguments.begin(), arguments.end(),
                              [&](const FindingArgument& argument) { return argument.name == name; }))
          << "{" << name << "} in: " << pattern;
  };
  for (const VectorCase& vector : cases_) {
    SCOPED_TRACE(vector.id);
    const Verdict verdict = judged(prepare_vector(kind_, vector, meters()), vector.readings);
    for (const Finding& finding : verdict.findings)
      expect_fields(descriptor.rules[finding.rule].texts.at(finding.text).english, finding.arguments);
    for (const Advice& advice : verdict.advice)
      expect_fields(descriptor.advice.at(advice.text).english, advice.arguments);
  }
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

/// Who types each reading twice has learned nothing new.
TEST_P(KindVectors, AreNoSurerWhenEachReadingIsTypedTwice) {
  for (const VectorCase& vector : cases_) {
    const PreparedVector prepared = prepare_vector(kind_, vector, meters());
    std::vector<Reading> doubled;
    for (const Reading& reading : vector.readings) doubled.insert(doubled.end(), 2, reading);
    const Outcome once = judged(prepared, vector.readings).outcome;
    const Outcome twice = judged(prepared, doubled).outcome;
    EXPECT_TRUE(twice == once || twice == Outcome::undecided) << vector.id;
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

/// Volts, amperes, watts and turns are read in circuit by their nature; what a path beside the part falsifies are ohms
/// and farads.
bool all_are_falsified_in_circuit(const Descriptor& descriptor, const std::vector<Reading>& readings) {
  return std::all_of(readings.begin(), readings.end(), [&](const Reading& reading) {
    const std::uint16_t index = index_of(descriptor.measurands, reading.measurand);
    const Dimension dimension = descriptor.measurands.at(index).dimension;
    return dimension == Dimension::resistance || dimension == Dimension::capacitance;
  });
}

TEST_P(KindVectors, NeverPassOnReadingsInCircuitAlone) {
  for (const VectorCase& vector : cases_) {
    if (!all_are_falsified_in_circuit(kind_.descriptor(), vector.readings)) continue;
    std::vector<Reading> in_circuit = vector.readings;
    for (Reading& reading : in_circuit) reading.connection = Connection::in_circuit;
    EXPECT_NE(judged(prepare_vector(kind_, vector, meters()), in_circuit).outcome, Outcome::within_limits) << vector.id;
  }
}

TEST_P(KindVectors, NeverPassWithoutAReading) {
  for (const VectorCase& vector : cases_) {
    const Verdict verdict = judged(prepare_vector(kind_, vector, meters()), {});
    EXPECT_EQ(verdict.outcome, Outcome::undecided) << vector.id;
  }
}

TEST_P(KindVectors, AReadingInCircuitNeverTurnsAnUndecidedIntoAPass) {
  for (const VectorCase& vector : cases_) {
    const PreparedVector prepared = prepare_vector(kind_, vector, meters());
    if (judged(prepared, vector.readings).outcome != Outcome::undecided) continue;
    std::vector<Reading> more = vector.readings;
    for (const Reading& reading : vector.readings) {
      more.push_back(reading);
      more.back().connection = Connection::in_circuit;
    }
    EXPECT_NE(judged(prepared, more).outcome, Outcome::within_limits) << vector.id;
  }
}

TEST_P(KindVectors, OneReadingFarOffAmongManyIsNeverPassedOver) {
  for (const VectorCase& vector : cases_) {
    if (vector.readings.size() != 1) continue;
    const Reading& good = vector.readings.front();
    const auto* stated = std::get_if<StatedValue>(&good.observed);
    if (good.measurand != kind_.descriptor().measurands.front().id || stated == nullptr) continue;
    const PreparedVector prepared = prepare_vector(kind_, vector, meters());
    if (judged(prepared, vector.readings).outcome != Outcome::within_limits) continue;
    std::vector<Reading> many(12, good);
    const double far_off = 1e3 * stated->value.value_in_si();
    many.back().observed = StatedValue{AnyQuantity(stated->value.dimension(), far_off), 0.01 * far_off, stated->unit};
    for (std::size_t i = 0; i < many.size(); ++i) many[i].label = "reading " + std::to_string(i + 1);
    EXPECT_NE(judged(prepared, many).outcome, Outcome::within_limits) << vector.id;
    std::reverse(many.begin(), many.end());
    EXPECT_NE(judged(prepared, many).outcome, Outcome::within_limits) << vector.id;
  }
}

TEST_P(KindVectors, AReadingThatIsNotANumberIsNeverAPass) {
  for (const VectorCase& vector : cases_) {
    const PreparedVector prepared = prepare_vector(kind_, vector, meters());
    std::vector<Reading> spoilt = vector.readings;
    for (Reading& reading : spoilt)
      if (auto* stated = std::get_if<StatedValue>(&reading.observed)) {
        stated->value = AnyQuantity(stated->value.dimension(), std::nan(""));
        stated->half_width = 1.0;  // a meter would refuse the value before it is judged
        reading.repeats.clear();
      }
    bool any = false;
    for (const Reading& reading : spoilt) any = any || std::holds_alternative<StatedValue>(reading.observed);
    if (!any) continue;
    EXPECT_NE(judged(prepared, spoilt).outcome, Outcome::within_limits) << vector.id;
  }
}

/// The readings with every value scaled, taken in another way.
std::vector<Reading> scaled(std::vector<Reading> readings, double factor, Connection connection, Moisture moisture) {
  for (Reading& reading : readings) {
    reading.connection = connection;
    reading.moisture = moisture;
    for (double& repeat : reading.repeats) repeat *= factor;
    if (auto* stated = std::get_if<StatedValue>(&reading.observed))
      stated->value = AnyQuantity(stated->value.dimension(), stated->value.value_in_si() * factor);
  }
  return readings;
}

TEST_P(KindVectors, FindNothingThatTheirOwnNumbersContradict) {
  for (const VectorCase& vector : cases_) {
    PreparedVector prepared = prepare_vector(kind_, vector, meters());
    for (const double factor : {-1.0, 0.0, 1e-3, 0.5, 0.9, 0.95, 0.98, 1.0, 1.02, 1.05, 1.1, 2.0, 1e3})
      for (const Connection connection : {Connection::unstated, Connection::lead_off, Connection::in_circuit})
        for (const Moisture moisture : {Moisture::dry, Moisture::wet})
          for (const double confidence : {0.8, 0.95, 0.999}) {
            const std::vector<Reading> readings = scaled(vector.readings, factor, connection, moisture);
            prepared.settings.confidence = confidence;
            std::optional<Evidence> evidence;
            try {
              evidence.emplace(kind_.descriptor(), readings, prepared.meters);
            } catch (const InputError&) {
              continue;  // the meter cannot show that
            }
            const auto judged = judge_guarded(*prepared.part, kind_.descriptor(), *evidence, prepared.settings);
            if (const auto* failed = std::get_if<NotJudged>(&judged))
              ADD_FAILURE() << vector.id << " times " << factor << " at " << confidence << ": " << failed->text;
          }
  }
}

INSTANTIATE_TEST_SUITE_P(Built, KindVectors, ::testing::ValuesIn(kinds()), [](const auto& kind) {
  std::string name = kind.param;
  for (char& letter : name)
    if (letter == '-') letter = '_';
  return name;
});

}  // namespace
}  // namespace ohmwright
