#include "tally.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <ohmwright/component/judgement.hpp>

namespace ohmwright::calibration {

namespace {

double share(std::size_t part, std::size_t whole) {
  return whole == 0 ? 0.0 : static_cast<double>(part) / static_cast<double>(whole);
}

/// The trade's rule: 10 % either way (common practice, no source).
Outcome by_ten_percent(double shown, double expected) {
  constexpr double trade_tolerance = 0.10;
  return std::abs(shown / expected - 1.0) <= trade_tolerance ? Outcome::within_limits : Outcome::out_of_limits;
}

double nominal_at_25(const Run& run) {
  const ConditionValue value{index_of(run.descriptor.conditions, run.workplace.condition), 298.15};
  return run.part.expect(index_of(run.descriptor.measurands, run.workplace.measurand), Situation({&value, 1}))
      ->nominal.value_in_si();
}

/// The finding that judged the reading by a probability.
const Finding* judged_finding(const Findings& findings) {
  const auto& all = findings.findings();
  const auto found = std::find_if(all.begin(), all.end(), [](const Finding& finding) {
    return finding.judged.has_value() && finding.meaning == ProbabilityMeaning::within_limits;
  });
  return found == all.end() ? nullptr : &*found;
}

std::string row_of(const char* name, const Decisions& decisions) {
  return fmt::format("| {} | {:.2f} % | {:.2f} % | {:.1f} % |\n", name, 100.0 * decisions.bad_among_passed(),
                     100.0 * decisions.good_among_condemned(), 100.0 * decisions.undecided_share());
}

}  // namespace

void Decisions::take(Outcome outcome, bool truly_within) {
  if (outcome == Outcome::within_limits) {
    ++passed;
    if (!truly_within) ++passed_bad;
  } else if (outcome == Outcome::out_of_limits) {
    ++condemned;
    if (truly_within) ++condemned_good;
  } else {
    ++undecided;
  }
}

double Decisions::bad_among_passed() const { return share(passed_bad, passed); }
double Decisions::good_among_condemned() const { return share(condemned_good, condemned); }
double Decisions::undecided_share() const { return share(undecided, passed + condemned + undecided); }

Tally run(const Run& run) {
  ReproducibleStream stream(run.seed);
  const MeterSet meters({run.meter});
  const JudgeSettings settings{run.confidence};
  const double at_25 = nominal_at_25(run);
  Tally tally;
  Findings findings;
  for (std::size_t i = 0; i < run.parts; ++i) {
    const SimulatedPart simulated =
        draw_part(run.part, run.descriptor, run.meter, run.workplace, run.population, stream);
    const Evidence evidence(run.descriptor, {&simulated.reading, 1}, meters);
    findings.clear();
    run.part.judge(evidence, settings, findings);
    const Finding* judged = judged_finding(findings);
    ++tally.parts;
    tally.verdicts.take(judged == nullptr ? Outcome::undecided : judged->outcome, simulated.truly_within);
    tally.chart_at_25.take(by_ten_percent(simulated.shown, at_25), simulated.truly_within);
    tally.ten_percent.take(by_ten_percent(simulated.shown, simulated.nominal_at_reading), simulated.truly_within);
    if (judged == nullptr) continue;
    Decile& decile = tally.deciles[std::min<std::size_t>(9, static_cast<std::size_t>(10.0 * judged->probability))];
    ++decile.count;
    decile.stated += judged->probability;
    if (simulated.truly_within) ++decile.within;
  }
  return tally;
}

std::string table_of(const std::string& title, const Tally& tally) {
  std::string table = fmt::format(
      "### {}, {} parts\n\n| stated | parts | mean stated | truly within | difference |\n"
      "| --- | ---: | ---: | ---: | ---: |\n",
      title, tally.parts);
  for (std::size_t i = 0; i < tally.deciles.size(); ++i) {
    const Decile& decile = tally.deciles[i];
    if (decile.count == 0) continue;
    table += fmt::format("| {}…{} % | {} | {:.2f} % | {:.2f} % | {:+.2f} |\n", 10 * i, 10 * (i + 1), decile.count,
                         100.0 * decile.stated_share(), 100.0 * decile.observed_share(),
                         100.0 * (decile.observed_share() - decile.stated_share()));
  }
  table +=
      "\n| way of deciding | bad among passed | good among condemned | undecided |\n| --- | ---: | ---: | ---: |\n";
  table += row_of("ohmwright at 95 %", tally.verdicts);
  table += row_of("chart at 25 °C, ± 10 %", tally.chart_at_25);
  table += row_of("± 10 % at the noted temperature", tally.ten_percent);
  return table + '\n';
}

}  // namespace ohmwright::calibration
