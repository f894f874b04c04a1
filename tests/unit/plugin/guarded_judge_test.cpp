#include <limits>
#include <memory>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/plugin/guarded_judge.hpp>
#include <ohmwright/plugin/registry.hpp>

#include "../../plugins/support/no_readings.hpp"
#include "plugin_folder.hpp"

namespace ohmwright {
namespace {

using testing::IsEmpty;

Descriptor descriptor_with_one_rule() {
  Descriptor descriptor;
  descriptor.rules = {{"resistance", "Resistance", true, can_pass, "made up for this test", {{"text", "it reads"}}}};
  return descriptor;
}

/// A part whose rules are given by the test.
template <class Judge>
class PartOf : public Part {
 public:
  explicit PartOf(Judge judge) : judge_(std::move(judge)) {}
  void judge(const Evidence& /*evidence*/, const JudgeSettings& /*settings*/, Findings& findings) const override {
    judge_(findings);
  }

 private:
  Judge judge_;
};

/// What is said when the rules do that; empty when they could speak.
template <class Judge>
std::string failure_of(Judge judge) {
  const Descriptor descriptor = descriptor_with_one_rule();
  const PartOf<Judge> part(std::move(judge));
  Findings findings;
  const auto failure = run_rules(part, descriptor, fixture::no_readings(descriptor), {}, findings);
  if (failure) {
    EXPECT_THAT(findings.findings(), IsEmpty()) << "nothing may be left that could pass for a verdict";
  }
  return failure ? failure->text : "";
}

TEST(GuardedJudge, LetsUsableFindingsThrough) {
  EXPECT_EQ(failure_of([](Findings& findings) { findings.add(0, Outcome::within_limits, 0); }), "");
  EXPECT_EQ(failure_of([](Findings& findings) { findings.add(0, Outcome::silent, 0); }), "");
}

TEST(GuardedJudge, APluginThatThrowsHasNotJudged) {
  const test::PluginFolder folder;
  folder.add("throws_in_judge");
  const Registry registry(folder.list(), ::geteuid());
  const LoadedKind& kind = registry.kind("throws-in-judge");
  std::vector<Problem> problems;
  const std::shared_ptr<const Part> part = kind.make_part(nullptr, problems);
  const Evidence evidence = fixture::no_readings(kind.descriptor());
  const auto judged = judge_guarded(*part, kind.descriptor(), evidence, {});
  ASSERT_TRUE(std::holds_alternative<NotJudged>(judged));
  EXPECT_EQ(std::get<NotJudged>(judged).text, "not judged: the plugin failed: the curve has no value there");
}

TEST(GuardedJudge, AProbabilityThatIsNotANumberIsNeverAPass) {
  const test::PluginFolder folder;
  folder.add("misuses_findings");
  const Registry registry(folder.list(), ::geteuid());
  const LoadedKind& kind = registry.kind("misuses-findings");
  std::vector<Problem> problems;
  const std::shared_ptr<const Part> part = kind.make_part(nullptr, problems);
  Findings findings;
  const auto failure = run_rules(*part, kind.descriptor(), fixture::no_readings(kind.descriptor()), {}, findings);
  ASSERT_TRUE(failure.has_value());
  EXPECT_EQ(failure->text,
            "not judged: the plugin failed: its rule \"reads-something\" gave something that is not a number");
}

TEST(GuardedJudge, FindingsThatItsDescriptorDoesNotHaveCountAsAFailure) {
  const std::string failed = "not judged: the plugin failed: ";
  EXPECT_EQ(failure_of([](Findings&) {}), failed + "none of its rules spoke");
  EXPECT_EQ(failure_of([](Findings& findings) { findings.add(1, Outcome::within_limits, 0); }),
            failed + "it gave a finding of a rule that its kind does not have");
  EXPECT_EQ(failure_of([](Findings& findings) { findings.add(0, Outcome::within_limits, 1); }),
            failed + "its rule \"resistance\" gave a text that it does not have");
  EXPECT_EQ(failure_of([](Findings& findings) { findings.add(0, Outcome::out_of_limits, 0); }),
            failed + "its rule \"resistance\" gave an outcome that it does not declare");
  EXPECT_EQ(failure_of([](Findings& findings) {
              findings.add(0, Outcome::within_limits, 0);
              findings.advise(0);
            }),
            failed + "it gave an advice that its kind does not have");
  EXPECT_EQ(failure_of([](Findings& findings) {
              findings.add(0, Outcome::within_limits, 0).judged = Estimate(std::numeric_limits<double>::quiet_NaN());
            }),
            failed + "its rule \"resistance\" gave something that is not a number");
}

TEST(GuardedJudge, AVerdictThatItsNumbersContradictIsNone) {
  // P(|Y| ≤ √3/2) = 0.5 for a rectangle of half-width √3: no pass at 0.95.
  EXPECT_EQ(failure_of([](Findings& findings) {
              Finding& finding = findings.add(0, Outcome::within_limits, 0);
              finding.meaning = ProbabilityMeaning::within_limits;
              finding.probability = 0.5;
              finding.judged = Estimate(0.0);
              finding.judged->add_term(Evidence::model_source, 1.0);
              finding.judged_lower = -0.8660254037844386;
              finding.judged_upper = 0.8660254037844386;
            }),
            "not judged: the plugin failed: its rule \"resistance\" gave an outcome that its own numbers contradict");
}

TEST(GuardedJudge, WhatAPluginThrowsCannotDisturbATerminal) {
  const test::PluginFolder folder;
  folder.add("unprintable");
  const Registry registry(folder.list(), ::geteuid());
  const LoadedKind& kind = registry.kind("unprintable");
  std::vector<Problem> problems;
  const std::shared_ptr<const Part> part = kind.make_part(nullptr, problems);
  const auto judged = judge_guarded(*part, kind.descriptor(), fixture::no_readings(kind.descriptor()), {});
  EXPECT_EQ(std::get<NotJudged>(judged).text,
            "not judged: the plugin failed: line one\\nline two \\x1b[2J \\u202e backwards \\xff \"end\"");
}

TEST(GuardedJudge, WhatIsNoExceptionIsCaughtToo) {
  EXPECT_EQ(failure_of([](Findings&) { throw 42; }),
            "not judged: the plugin failed: something was thrown that is no exception");
}

}  // namespace
}  // namespace ohmwright
