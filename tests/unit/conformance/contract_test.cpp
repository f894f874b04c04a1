// Each promise finds the kind that breaks it, and leaves a kind alone that keeps it.

#include <algorithm>
#include <array>
#include <cstdio>
#include <fcntl.h>
#include <filesystem>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/conformance/kit/contract.hpp>
#include <ohmwright/conformance/kit/elf_exports.hpp>
#include <ohmwright/conformance/kit/kit_checks.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/plugin/file_descriptor.hpp>
#include <ohmwright/plugin/registry.hpp>
#include <ohmwright/verdict/decision.hpp>

#include "../plugin/plugin_folder.hpp"

namespace ohmwright {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

using Judge = std::function<void(const Evidence&, const JudgeSettings&, Findings&)>;

constexpr double lowest = 90.0;  // ohm
constexpr double highest = 110.0;

class PartOfTest : public Part {
 public:
  explicit PartOfTest(Judge judge) : judge_(std::move(judge)) {}
  void judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const override {
    judge_(evidence, settings, findings);
  }

 private:
  Judge judge_;
};

class KindOfTest : public Kind {
 public:
  explicit KindOfTest(Judge judge) : judge_(std::move(judge)) {
    descriptor_.id = "part-of-test";
    descriptor_.measurands = {{"resistance", "Resistance", Dimension::resistance, "ohm", false}};
    descriptor_.rules = {{"ohms",
                          "Ohms",
                          true,
                          can_pass | can_condemn | can_be_undecided,
                          "made up for this test",
                          {{"judged", "it reads {measured}"}, {"nothing", "nothing was read"}}},
                         {"other", "Other", false, 0, "made up for this test", {{"silent", "it has nothing to say"}}}};
  }
  const Descriptor& descriptor() const override { return descriptor_; }
  std::unique_ptr<const Part> make_part(const ValueNode* /*ratings*/,
                                        std::vector<Problem>& /*problems*/) const override {
    return std::make_unique<PartOfTest>(judge_);
  }

 private:
  Judge judge_;
  Descriptor descriptor_;
};

/// Judges the first reading that `accepts` takes; `spread` times its doubt, 1 is right.
void judge_ohms(const Evidence& evidence, const JudgeSettings& settings, Findings& findings,
                const std::function<bool(const PreparedReading&)>& accepts, double spread = 1.0) {
  findings.add(1, Outcome::silent, 0);
  for (const PreparedReading& reading : evidence.readings()) {
    if (!accepts(reading)) continue;
    Estimate judged(reading.value.value());
    judged.add_uncertainty(reading.value, spread);
    const Conformance p = conformance_of(judged, evidence.sources(), lowest, highest);
    Finding& finding = findings.add(0, decide(p, settings.confidence), 0);
    finding.meaning = ProbabilityMeaning::within_limits;
    finding.probability = p.within;
    finding.judged = judged;
    finding.judged_lower = lowest;
    finding.judged_upper = highest;
    finding.arguments.push_back({"measured", AnyQuantity(Dimension::resistance, judged.value())});
    return;
  }
  findings.add(0, Outcome::silent, 1);
}

bool is_lead_off(const PreparedReading& reading) { return reading.connection == Connection::lead_off; }
bool is_any(const PreparedReading& /*reading*/) { return true; }

void right(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) {
  judge_ohms(evidence, settings, findings, is_lead_off);
}

MeterSet basic_meters() {
  return MeterSet({read_meter(read_document(std::string(OHMWRIGHT_METER_FOLDER) + "/basic.json"))});
}

VectorCase case_of(const std::string& id, double ohms) {
  VectorCase made;
  made.id = id;
  made.meter = "basic";
  Reading reading{
      .measurand = "resistance",
      .observed = StatedValue{AnyQuantity(Dimension::resistance, ohms), std::nullopt, Unit::si(Dimension::resistance)}};
  reading.connection = Connection::lead_off;
  made.readings = {reading};
  return made;
}

/// What a promise finds in a kind that judges so, tried with a good part and one near its limit.
std::vector<std::string> breaches(std::vector<std::string> (*promise)(const KindCases&), Judge judge,
                                  double good_ohms = 100.0) {
  const auto kind = std::make_shared<const KindOfTest>(std::move(judge));
  const LoadedKind loaded(kind, kind->descriptor(), "part-of-test.ohmplug");
  const std::vector<VectorCase> cases{case_of("good", good_ohms), case_of("near", 110.4)};
  const MeterSet meters = basic_meters();
  return promise({loaded, cases, meters});
}

TEST(Contracts, LeaveAKindAloneThatKeepsThem) {
  for (const Contract& contract : contracts()) {
    // One reading among several is all that this kind looks at.
    if (contract.breaches == breaches_of_outlier || contract.breaches == breaches_of_contradiction) continue;
    EXPECT_THAT(breaches(contract.breaches, right), IsEmpty()) << contract.id;
  }
}

TEST(Contracts, FindAKindThatRemembers) {
  int times = 0;
  const Judge remembers = [&](const Evidence& evidence, const JudgeSettings& settings, Findings& findings) {
    if (++times % 2 == 0)
      findings.add(0, Outcome::undecided, 1);
    else
      right(evidence, settings, findings);
  };
  EXPECT_THAT(breaches(breaches_of_repeatability, remembers), ::testing::SizeIs(2));
}

TEST(Contracts, FindARuleThatSaysNothing) {
  const Judge quiet = [](const Evidence&, const JudgeSettings&, Findings& findings) {
    findings.add(0, Outcome::undecided, 1);
  };
  EXPECT_THAT(breaches(breaches_of_speaking, quiet),
              ElementsAre(HasSubstr("good: the rule other says nothing"), HasSubstr("near: the rule other")));
}

TEST(Contracts, FindLimitsOfAnotherUnitThanTheValue) {
  const Judge in_shares = [](const Evidence& evidence, const JudgeSettings& settings, Findings& findings) {
    right(evidence, settings, findings);
    Finding& ohms = findings.findings().back();
    ohms.measured = AnyQuantity(Dimension::resistance, 100.0);
    ohms.limits.lower = AnyQuantity(Dimension::ratio, 0.9);
  };
  EXPECT_THAT(breaches(breaches_of_numbers, in_shares),
              ElementsAre(HasSubstr("good: rule ohms tells a value and limits that have not the same unit"),
                          HasSubstr("near: rule ohms")));
}

TEST(Contracts, FindASentenceWithoutItsFigure) {
  const Judge bare = [](const Evidence&, const JudgeSettings&, Findings& findings) {
    findings.add(0, Outcome::undecided, 0);
  };
  EXPECT_THAT(breaches(breaches_of_fields, bare),
              ::testing::Contains(HasSubstr("the text judged of the rule ohms gets no {measured}")));
}

TEST(Contracts, FindAKindThatDecidesWithoutAReading) {
  const Judge hasty = [](const Evidence& evidence, const JudgeSettings& settings, Findings& findings) {
    if (evidence.readings().empty())
      findings.add(0, Outcome::out_of_limits, 1);
    else
      right(evidence, settings, findings);
  };
  EXPECT_THAT(breaches(breaches_of_nothing_read, hasty), ::testing::SizeIs(2));
}

TEST(Contracts, FindAKindThatPassesInCircuit) {
  const Judge careless = [](const Evidence& evidence, const JudgeSettings& settings, Findings& findings) {
    judge_ohms(evidence, settings, findings, is_any);
  };
  EXPECT_THAT(breaches(breaches_of_circuit, careless), ElementsAre(HasSubstr("good: read in circuit it passes")));
}

/// As an open contact would be judged: OL passes, whatever the range.
TEST(Contracts, FindAKindThatTakesOverRangeForOpen) {
  const auto open_contact = [](double least_range) {
    return [least_range](const Evidence& evidence, const JudgeSettings& /*settings*/, Findings& findings) {
      findings.add(1, Outcome::silent, 0);
      for (const PreparedReading& reading : evidence.readings()) {
        const bool is_open = reading.shown == Shown::over_range && reading.range_full_scale >= least_range;
        findings.add(0, is_open ? Outcome::within_limits : Outcome::out_of_limits, 1);
      }
    };
  };
  EXPECT_THAT(breaches(breaches_of_range, open_contact(0.0)),
              ElementsAre(HasSubstr("good: OL on a range of 600 ohm passes, and 1000 ohm"), HasSubstr("near: OL on")));
  EXPECT_THAT(breaches(breaches_of_range, open_contact(1e6)), IsEmpty());
}

/// A part of 1 kohm: on a range of 600 ohm a good one shows OL.
TEST(Contracts, FindAKindThatCondemnsByOverRangeOnALowRange) {
  const auto part_of_a_kilohm = [](double least_range) {
    return [least_range](const Evidence& evidence, const JudgeSettings& /*settings*/, Findings& findings) {
      findings.add(1, Outcome::silent, 0);
      for (const PreparedReading& reading : evidence.readings()) {
        const bool is_open = reading.shown == Shown::over_range && reading.range_full_scale >= least_range;
        const bool is_unknown = reading.shown == Shown::over_range && !is_open;
        findings.add(0, is_open ? Outcome::out_of_limits : is_unknown ? Outcome::undecided : Outcome::within_limits, 1);
      }
    };
  };
  EXPECT_THAT(breaches(breaches_of_range, part_of_a_kilohm(0.0), 1000.0),
              ElementsAre(HasSubstr("good: OL on a range of 600 ohm condemns it")));
  EXPECT_THAT(breaches(breaches_of_range, part_of_a_kilohm(1e6), 1000.0), IsEmpty());
}

TEST(Contracts, FindAKindThatCondemnsInCircuitWhatIsGoodAlone) {
  const Judge hasty = [](const Evidence& evidence, const JudgeSettings& settings, Findings& findings) {
    right(evidence, settings, findings);
    for (const PreparedReading& reading : evidence.readings())
      if (reading.connection == Connection::in_circuit) findings.add(0, Outcome::out_of_limits, 1);
  };
  EXPECT_THAT(breaches(breaches_of_reading_alone, hasty), ElementsAre(HasSubstr("good: good with a lead off, it is")));
}

TEST(Contracts, FindAKindThatPassesAnOutlierOver) {
  EXPECT_THAT(breaches(breaches_of_outlier, right), ElementsAre(HasSubstr("good: a reading a thousand times off")));
}

TEST(Contracts, FindAKindThatPassesOverRangeBehindAGoodReadingOver) {
  EXPECT_THAT(breaches(breaches_of_contradiction, right),
              ElementsAre(HasSubstr("good: OL beside the good reading of resistance is passed over")));
  const Judge of_every_reading = [](const Evidence& evidence, const JudgeSettings& settings, Findings& findings) {
    for (const PreparedReading& reading : evidence.readings())
      judge_ohms(evidence, settings, findings, [&](const PreparedReading& other) { return &other == &reading; });
  };
  EXPECT_THAT(breaches(breaches_of_contradiction, of_every_reading), IsEmpty());
}

TEST(Contracts, FindAProbabilityThatIsTooSure) {
  const Judge too_sure = [](const Evidence& evidence, const JudgeSettings& settings, Findings& findings) {
    judge_ohms(evidence, settings, findings, is_lead_off, 0.05);
  };
  EXPECT_THAT(breaches(breaches_of_calibration, too_sure), ElementsAre(HasSubstr("near: it states")));
}

TEST(Contracts, FindAKindThatDependsOnItsThread) {
  const std::thread::id first = std::this_thread::get_id();
  const Judge of_one_thread = [first](const Evidence& evidence, const JudgeSettings& settings, Findings& findings) {
    if (std::this_thread::get_id() == first)
      right(evidence, settings, findings);
    else
      findings.add(0, Outcome::undecided, 1);
  };
  EXPECT_THAT(breaches(breaches_of_threads, of_one_thread),
              ElementsAre(HasSubstr("while other threads judge other readings it says something else")));
}

/// Every verdict is right as long as nobody else judges; a real library, so that nothing of the test is shared with it.
TEST(Contracts, FindASharedScratchBuffer) {
  const test::PluginFolder folder;
  folder.add("shares_its_scratch_buffer");
  const Registry registry({folder.path()}, ::geteuid());
  const LoadedKind& kind = registry.kind("shares-its-scratch-buffer");
  const MeterSet meters = basic_meters();
  const std::vector<VectorCase> cases{case_of("good", 100.0), case_of("other", 80.0)};
  EXPECT_THAT(breaches_of_repeatability({kind, cases, meters}), IsEmpty());
  EXPECT_THAT(breaches_of_threads({kind, cases, meters}),
              ElementsAre(HasSubstr("while other threads judge other readings it says something else")));
}

TEST(Contracts, FindAKindThatKeepsMemory) {
#ifdef OHMWRIGHT_SANITIZED
  GTEST_SKIP() << "the sanitizer's allocator does not count";
#endif
  std::vector<std::unique_ptr<std::string>> kept;
  const Judge hoards = [&](const Evidence& evidence, const JudgeSettings& settings, Findings& findings) {
    kept.push_back(std::make_unique<std::string>(1000, 'x'));
    right(evidence, settings, findings);
  };
  EXPECT_THAT(breaches(breaches_of_memory, hoards), ElementsAre(HasSubstr("bytes for each part")));
}

/// What `nm` of the binutils prints.
std::vector<std::string> names_by_nm(const std::string& library) {
  std::vector<std::string> names;
  const std::unique_ptr<FILE, int (*)(FILE*)> out(
      ::popen(("nm -D --defined-only --format=just-symbols " + library).c_str(), "r"), &::pclose);
  std::array<char, 4096> line{};
  while (out != nullptr && std::fgets(line.data(), line.size(), out.get()) != nullptr) {
    std::string name = line.data();
    name.pop_back();
    names.push_back(name.substr(0, name.find('@')));
  }
  std::sort(names.begin(), names.end());
  return names;
}

TEST(Exports, AreThoseThatNmFinds) {
  for (const std::string library : {OHMWRIGHT_CORE_LIBRARY, OHMWRIGHT_PLUGIN_FOLDER "/heater/heater.ohmplug"}) {
    const FileDescriptor file(::open(library.c_str(), O_RDONLY | O_CLOEXEC));
    const auto exported = elf_exports(FileBytes(file.number(), std::filesystem::file_size(library)));
    ASSERT_TRUE(exported) << library;
    EXPECT_EQ(*exported, names_by_nm(library)) << library;
  }
  const std::string text = "no library";
  EXPECT_FALSE(elf_exports(MemoryBytes(std::as_bytes(std::span(text.data(), text.size())))));
}

TEST(KitOfTheDescriptor, AsksForProceduresCautionsAndSources) {
  Descriptor descriptor;
  descriptor.measurands = {{"resistance", "Resistance", Dimension::resistance, "ohm", false},
                           {"volts", "Volts", Dimension::voltage, "V", false}};
  descriptor.procedures = {{"read-it", "Read it", "resistance", 0.0, {}, {"prove-dead"}},
                           {"unplug-it", "Unplug it", "resistance", 1.0, {{"read", "Read it."}}, {"disconnect-power"}}};
  descriptor.fault_modes = {{"open", "open", 1.0, "", {}, {}}};
  EXPECT_THAT(
      gaps_of_descriptor(descriptor),
      ElementsAre("procedure read-it has no steps", "procedure read-it takes no minutes; locate weighs steps by them",
                  "procedure read-it reads resistance and does not say disconnect-power; add it to its cautions",
                  "procedure unplug-it reads resistance and does not say prove-dead; add it to its cautions",
                  "measurand volts has no procedure; say step by step how it is read, with its cautions",
                  "fault mode open has a weight without a source; an assumed one says so"));
}

}  // namespace
}  // namespace ohmwright
