#include <algorithm>
#include <cctype>
#include <charconv>
#include <ostream>

#include <ohmwright/appliance/looks.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/report/page_cautions.hpp>
#include <ohmwright/report/page_layout.hpp>

#include "exit_codes.hpp"
#include "job/actions.hpp"
#include "job/book_file.hpp"
#include "job/next_page.hpp"
#include "job/safety.hpp"
#include "job/search.hpp"
#include "job/unproved_page.hpp"
#include "locate/pages.hpp"

namespace ohmwright::cli {

namespace {

void refuse_operands(const Arguments& arguments, std::string_view action) {
  if (!arguments.operands.empty())
    throw InputError("job " + std::string(action) + " takes no word, got " +
                     ohmwright::quoted(arguments.operands.front()));
}

/// The search of the job at hand, with what every page of it needs.
struct SearchAtHand {
  JobAtHand job;
  JobSearch search;
  locate::WorkState work;
  bool stops = false;  ///< for the sealed system, by what was seen and read now or before a repair

  SearchAtHand(const Arguments& arguments, const Environment& environment)
      : job(job_at_hand(arguments)),
        search(job.call, arguments, environment, JobSearch::Reach::now),
        work(search.search().work()),
        stops(cli::stops_at_sealed_system(job.call, search, environment)) {}

  LocateReport report(const Arguments& arguments) {
    LocateReport report = locate_report(search.search(), work, search.meter().title, arguments.has("--cautions"));
    report.steps = search.steps();
    return report;
  }
  Sentences say() { return Sentences(search.units()); }
  /// What bars energising it, each with what proves it; at a stop for the sealed system nothing is tested any more.
  std::vector<std::string> bars() {
    if (search.stops_at_sealed_system()) return bar_texts(job.call, say());
    std::vector<std::string> lines;
    for (const job::ProofStep& bar : job::bars_to_energising(job.call))
      lines.push_back(printable(proof_text(bar, say()) + " " + proof_command(bar)));
    return lines;
  }
  /// What bars heating it, and does not bar energising it at all.
  std::vector<std::string> limit_texts(const Environment& environment) {
    std::vector<job::ProofStep> bars =
        those_that_count(bars_to_heating(job.call, &search.appliance(), environment), job.call);
    std::erase_if(bars, [](const job::ProofStep& bar) { return bar.bars_energising(); });
    return texts_of(bars, say());
  }
  std::string limits_title() {
    return job.call.cools() ? say()(OHMWRIGHT_TEXT("No forced defrost before"))
                            : say()(OHMWRIGHT_TEXT("Do not let it heat before"));
  }
};

}  // namespace

std::string passed_over_text(const JobSearch& search, const Sentences& say) {
  std::string all;
  for (const std::string& word : search.passed_over()) all += (all.empty() ? "" : ", ") + printable(word);
  if (all.empty()) return {};
  return say(OHMWRIGHT_TEXT("Passed over, since the appliance's file has nothing of that name: {words}. Say or read it "
                            "anew, and take these back (ohmwright job show, ohmwright job correct ENTRY)."),
             {{"words", all}});
}

std::string command_for(const Appliance& appliance, const locate::Step& step) {
  switch (step.form) {
    case locate::Step::Form::measure: {
      std::string place = appliance.test_points[step.measurement.test_point].id;
      if (step.measurement.set_up) place += "@" + appliance.set_ups[*step.measurement.set_up].id;
      const bool live = locate::is_live(appliance, step.measurement);
      return "ohmwright job read " + place + "=VALUE" + (live ? " --live-agreed" : "");
    }
    case locate::Step::Form::look:
      return "ohmwright job sign --looked " + look_words(appliance, step.subject).id + "=fine|found";
    case locate::Step::Form::replace:
      break;
  }
  return "ohmwright job replace " + appliance.parts[step.subject].id + " --new NAME";
}

namespace {

void write_passed_over(const JobSearch& search, const Sentences& say, PageLayout& page) {
  if (const std::string text = passed_over_text(search, say); !text.empty()) page.block(text);
}

/// The first sentence of a text: the rest is on the page of `find`.
std::string first_sentence(const std::string& text) {
  for (std::size_t at = text.find(". "); at != std::string::npos; at = text.find(". ", at + 1))
    if (at + 2 < text.size() && std::isupper(static_cast<unsigned char>(text[at + 2])) != 0)
      return text.substr(0, at + 1);
  return text;
}

/// What may mislead in what was read, as short as may be.
void write_remarks(const LocateContent& content, const Sentences& say, PageLayout& page) {
  std::vector<std::string> brief;
  bool is_cut = false;
  for (const std::string& remark : content.remarks) {
    brief.push_back(first_sentence(remark));
    is_cut = is_cut || brief.back().size() < remark.size();
  }
  page.section(say(OHMWRIGHT_TEXT("Mind")), brief);
  if (is_cut) page.block(say(OHMWRIGHT_TEXT("In full: ohmwright job find")), "    ");
}

/// After a repair its proof is what to do next, not a search for another fault. Where the sealed system spoke before
/// it, the page stops for that all the same.
int tell_proof(SearchAtHand& now, const Arguments& arguments, const PageStyle& style, Environment& environment) {
  const Sentences say = now.say();
  if (!now.stops) {
    const LocateReport report = now.report(arguments);
    const LocateContent content = locate_content(report, say);
    PageLayout page(style);
    write_cautions(content.brief_cautions, content.cautions, report.cautions_in_full, say, page);
    page.block(
        say(OHMWRIGHT_TEXT("Do next: prove the repair. Where something is still wrong, the search goes on: "
                           "ohmwright job find")));
    environment.out << page.take();
  }
  write_unproved(now.job.call, now.stops, style, environment);
  return job::open_proof(now.job.call).empty() ? exit_done : exit_undecided;
}

}  // namespace

std::string standing_page(JobSearch& search, const PageStyle& style) {
  const locate::WorkState work = search.search().work();
  LocateReport report = locate_report(search.search(), work, search.meter().title, false);
  report.steps = search.steps();
  const LocateContent content = locate_content(report, Sentences(search.units()));
  const Sentences say(search.units());
  PageLayout page(style);
  write_passed_over(search, say, page);
  if (!content.possible.empty()) page.heading(say(OHMWRIGHT_TEXT("Possible faults now")));
  for (const PossibleFaultLine& row : content.possible) page.bar(row.label, row.probability);
  write_remarks(content, say, page);
  page.blank_line();
  page.block(content.headline);
  if (search.stops_at_sealed_system())
    for (const std::string& line : content.explanation) page.block(line, "  ");
  if (content.next) page.item(content.next->title);
  if (content.next) page.block(command_for(search.appliance(), report.steps.front()), "    ");
  return page.take();
}

namespace {

/// Without an appliance nothing is searched; what stops a call stops it all the same.
bool stops_without_appliance(const Arguments& arguments, const PageStyle& style, Environment& environment) {
  const JobAtHand job = job_at_hand(arguments);
  if (job.call.has_appliance() || !signs_speak_of_sealed_system(job.call)) return false;
  say_which(job, environment);
  write_unproved(job.call, true, style, environment);
  return true;
}

}  // namespace

int next_of_job(const Arguments& arguments, Environment& environment) {
  refuse_operands(arguments, "next");
  if (stops_without_appliance(arguments, environment.page, environment)) return exit_undecided;
  SearchAtHand now(arguments, environment);
  say_which(now.job, environment);
  if (proof_comes_next(now.job.call, now.stops, arguments, environment))
    return tell_proof(now, arguments, environment.page, environment);
  const LocateReport report = now.report(arguments);
  const LocateContent content = locate_content(report, now.say());
  PageLayout page(environment.page);
  write_passed_over(now.search, now.say(), page);
  page.section(now.say()(OHMWRIGHT_TEXT("First, not plugged in")), now.bars());
  page.section(now.limits_title(), now.limit_texts(environment));
  write_cautions(content.brief_cautions, content.cautions, report.cautions_in_full, now.say(), page);
  page.block(content.headline);
  for (const std::string& line : content.explanation) page.block(line, "  ");
  write_remarks(content, now.say(), page);
  if (content.next) {
    page.heading(now.say()(OHMWRIGHT_TEXT("Do next")));
    page.item(content.next->title);
    for (const std::string& line : content.next->before) page.block(line, "      ");
    if (!content.next->expected.empty()) page.block(now.say()(OHMWRIGHT_TEXT("It would show about:")), "    ");
    for (const ExpectedReading& row : content.next->expected)
      page.block(now.say()(OHMWRIGHT_TEXT("{shows}  if {fault}"), {{"shows", row.shows}, {"fault", row.fault}}),
                 "      ");
    if (content.next->way_out) page.block(*content.next->way_out, "    ");
  }
  page.section(now.say()(OHMWRIGHT_TEXT("What to do now")), content.afterwards);
  if (content.next) {  // once a part is found no step is shown, and no command says what it would be for
    page.blank_line();
    page.block(command_for(now.search.appliance(), report.steps.front()), "  ");
  }
  environment.out << page.take();
  return exit_of_search(report.standing);
}

namespace {

PageStyle card_style(const PageStyle& style) { return {std::min(style.width, phone_columns), style.colour}; }

}  // namespace

int card_of_job(const Arguments& arguments, Environment& environment) {
  refuse_operands(arguments, "card");
  std::size_t most = 5;
  if (arguments.has("--most")) {
    const std::string text = arguments.value("--most");
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), most);
    if (error != std::errc() || end != text.data() + text.size() || most == 0 || most > 20)
      throw InputError("--most takes a number from 1 to 20, got " + ohmwright::quoted(text));
  }
  SearchAtHand now(arguments, environment);
  if (proof_comes_next(now.job.call, now.stops, arguments, environment))
    return tell_proof(now, arguments, card_style(environment.page), environment);
  const LocateReport report = now.report(arguments);
  environment.out << job_card(report, bar_texts(now.job.call, now.say()), most, now.say(), environment.page);
  return now.search.stops_at_sealed_system() ? exit_of_search(report.standing) : exit_done;
}

int why_of_job(const Arguments& arguments, Environment& environment) {
  refuse_operands(arguments, "why");
  SearchAtHand now(arguments, environment);
  say_which(now.job, environment);
  const LocateReport report = now.report(arguments);
  const bool stops = now.search.stops_at_sealed_system();  // then no step is left to give a reason for
  environment.out << (stops ? locate_page(report, now.say(), environment.page)
                            : why_page(report, now.say(), environment.page));
  return stops ? exit_of_search(report.standing) : exit_done;
}

int find_in_job(const Arguments& arguments, Environment& environment) {
  refuse_operands(arguments, "find");
  SearchAtHand now(arguments, environment);
  say_which(now.job, environment);
  const LocateReport report = now.report(arguments);
  PageLayout first(environment.page);
  write_passed_over(now.search, now.say(), first);
  first.section(now.say()(OHMWRIGHT_TEXT("First, not plugged in")), now.bars());
  first.section(now.limits_title(), now.limit_texts(environment));
  environment.out << first.take();
  environment.out << locate_page(report, now.say(), environment.page);
  return exit_of_search(report.standing);
}

}  // namespace ohmwright::cli
