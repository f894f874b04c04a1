#include "tally.hpp"

#include <algorithm>
#include <string_view>

#include <fmt/format.h>

#include <ohmwright/component/judgement.hpp>

namespace ohmwright::calibration {

namespace {

double share(std::size_t part, std::size_t whole) {
  return whole == 0 ? 0.0 : static_cast<double>(part) / static_cast<double>(whole);
}

/// The finding that judged the reading by a probability.
const Finding* judged_finding(const Findings& findings) {
  const auto& all = findings.findings();
  const auto found = std::find_if(all.begin(), all.end(), [](const Finding& finding) {
    return finding.judged.has_value() && finding.meaning == ProbabilityMeaning::within_limits;
  });
  return found == all.end() ? nullptr : &*found;
}

std::string row_of(std::string_view name, const Decisions& decisions) {
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
  Tally tally;
  tally.by_the_trade.resize(run.workshop.ways_of_the_trade().size());
  Findings findings;
  for (std::size_t i = 0; i < run.parts; ++i) {
    const SimulatedPart simulated = run.workshop.draw(stream);
    const Evidence evidence(run.descriptor, simulated.readings, meters);
    findings.clear();
    run.part.judge(evidence, settings, findings);
    const Finding* judged = judged_finding(findings);
    ++tally.parts;
    tally.verdicts.take(judged == nullptr ? Outcome::undecided : judged->outcome, simulated.truly_within);
    for (std::size_t way = 0; way < tally.by_the_trade.size(); ++way)
      tally.by_the_trade[way].take(simulated.by_the_trade[way], simulated.truly_within);
    if (judged == nullptr) continue;
    Decile& decile = tally.deciles[std::min<std::size_t>(9, static_cast<std::size_t>(10.0 * judged->probability))];
    ++decile.count;
    decile.stated += judged->probability;
    if (simulated.truly_within) ++decile.within;
  }
  return tally;
}

std::string table_of(const std::string& title, const Workshop& workshop, const Tally& tally) {
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
  for (std::size_t way = 0; way < tally.by_the_trade.size(); ++way)
    table += row_of(workshop.ways_of_the_trade()[way], tally.by_the_trade[way]);
  return table + '\n';
}

}  // namespace ohmwright::calibration
