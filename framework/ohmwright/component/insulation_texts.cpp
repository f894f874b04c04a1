#include <array>
#include <vector>

#include <ohmwright/component/insulation.hpp>
#include <ohmwright/quantity/message.hpp>

namespace ohmwright {

namespace {

/// Whole sentences for each place, so that a translator gets no fragments.
struct InsulationRow {
  TextIndex text = InsulationText::first_own;
  std::string_view id;
  std::string_view frame;
  std::string_view frame_or_wire;
};

constexpr std::array<InsulationRow, InsulationText::first_own> insulation_rows{{
    {InsulationText::insulates, "insulates",
     OHMWRIGHT_TEXT("To the frame it has {measured}, tested with {volts}; {least} is the least."),
     OHMWRIGHT_TEXT("Tested with {volts} it has {measured} to the frame or the wire beside it; {least} is the least.")},
    {InsulationText::insulates_past_range, "insulates-past-range",
     OHMWRIGHT_TEXT("To the frame the tester shows more than its range, at {volts}; {least} is the least."),
     OHMWRIGHT_TEXT("Tested with {volts}, it shows more than the tester's range; {least} is the least.")},
    {InsulationText::insulates_at_fewer_volts, "insulates-at-fewer-volts",
     OHMWRIGHT_TEXT("To the frame it has {measured}; {least} is the least. The test is made with 500 V: {volts} are "
                    "accepted for where a surge arrester would conduct. Where there is none, test it with 500 V."),
     OHMWRIGHT_TEXT("It has {measured} to the frame or the wire beside it; {least} is the least. The test is made with "
                    "500 V: {volts} are accepted for where a surge arrester would conduct. Where there is none, test "
                    "it with 500 V.")},
    {InsulationText::insulates_past_range_at_fewer_volts, "insulates-past-range-at-fewer-volts",
     OHMWRIGHT_TEXT("To the frame the tester shows more than its range; {least} is the least. The test is made with "
                    "500 V: {volts} are accepted for where a surge arrester would conduct. Where there is none, test "
                    "it with 500 V."),
     OHMWRIGHT_TEXT("It shows more than the tester's range; {least} is the least. The test is made with 500 V: {volts} "
                    "are accepted for where a surge arrester would conduct. Where there is none, test it with 500 V.")},
    {InsulationText::leaks, "leaks",
     OHMWRIGHT_TEXT("To the frame it has only {measured}, where {least} is the least. Do not energise it: the frame "
                    "may become live."),
     OHMWRIGHT_TEXT("It has only {measured} to the frame or the wire beside it, where {least} is the least: it is "
                    "pinched, chafed or wet inside. Do not energise it: metal about it may become live.")},
    {InsulationText::touches_frame, "touches-frame",
     OHMWRIGHT_TEXT("To the frame it has only {measured}, where {least} is the least: so little is no damp, it "
                    "touches the frame or has burnt through to it, and no drying mends that. Do not energise it: the "
                    "frame would become live."),
     OHMWRIGHT_TEXT("It has only {measured} to the frame or the wire beside it, where {least} is the least: so little "
                    "is no damp, it is bare there, pinched or chafed through, and no drying mends that. Do not "
                    "energise it: metal about it would become live.")},
    {InsulationText::leaks_while_wet, "leaks-while-wet",
     OHMWRIGHT_TEXT("To the frame it has only {measured}, where {least} is the least, but it was wet. Do not energise "
                    "it; dry it and test again."),
     OHMWRIGHT_TEXT("It has only {measured} to the frame or the wire beside it, where {least} is the least, but it "
                    "was wet. Do not energise it; dry it and test again.")},
    {InsulationText::leaks_connection_unstated, "leaks-connection-unstated",
     OHMWRIGHT_TEXT("To the frame it reads only {measured}, where {least} is the least, but it was not said whether "
                    "its leads were off: something still connected may be what leaks. Do not energise it."),
     OHMWRIGHT_TEXT("It reads only {measured} to the frame or the wire beside it, where {least} is the least, but it "
                    "was not said whether its ends were off: what hangs on it may be what leaks. Do not energise it.")},
    {InsulationText::leaks_lead_off_of_another, "leaks-lead-off-of-another",
     OHMWRIGHT_TEXT("To the frame it reads only {measured}, where {least} is the least. That its leads were off was "
                    "said of another reading, and what stands behind a reading holds for that one alone (--lead-off "
                    "before the first one holds for all): something still connected may be what leaks. Do not "
                    "energise it."),
     OHMWRIGHT_TEXT("It reads only {measured} to the frame or the wire beside it, where {least} is the least. That "
                    "its ends were off was said of another reading, and what stands behind a reading holds for that "
                    "one alone (--lead-off before the first one holds for all): what hangs on it may be what leaks. "
                    "Do not energise it.")},
    {InsulationText::leaks_in_circuit, "leaks-in-circuit",
     OHMWRIGHT_TEXT("To the frame it reads only {measured}, where {least} is the least, but it was read in circuit: "
                    "something still connected may be what leaks. Do not energise it; take its leads off and test "
                    "again."),
     OHMWRIGHT_TEXT("It reads only {measured} to the frame or the wire beside it, where {least} is the least, but it "
                    "was read in circuit: what hangs on it may be what leaks. Do not energise it; take its ends off "
                    "and test again.")},
    {InsulationText::not_told_apart, "not-told-apart",
     OHMWRIGHT_TEXT("To the frame it has {measured}, too near to the {least} it needs at least to tell. Do not "
                    "energise it until that is decided."),
     OHMWRIGHT_TEXT("It has {measured} to the frame or the wire beside it, too near to the {least} it needs at least "
                    "to tell. Do not energise it until that is decided.")},
    {InsulationText::ohmmeter_is_no_tester, "ohmmeter-is-no-tester",
     OHMWRIGHT_TEXT("To the frame it reads {measured}, but an ohmmeter has a few volts only: that finds a short to "
                    "the frame and proves no insulation. Do not energise it yet."),
     OHMWRIGHT_TEXT("It reads {measured} to the frame or the wire beside it, but an ohmmeter has a few volts only: "
                    "that finds a short and proves no insulation.")},
    {InsulationText::ohmmeter_past_range, "ohmmeter-past-range",
     OHMWRIGHT_TEXT("To the frame the ohmmeter shows OL, so there is no short; with its few volts it proves no "
                    "insulation. The least is {least}, at 500 V; do not energise it yet."),
     OHMWRIGHT_TEXT("The ohmmeter shows OL to the frame or the wire beside it, so there is no short; with its few "
                    "volts it proves no insulation. The least is {least}, at 500 V.")},
    {InsulationText::ohmmeter_more_than, "ohmmeter-more-than",
     OHMWRIGHT_TEXT("To the frame the ohmmeter shows more than {shown}, so there is no short; with its few volts it "
                    "proves no insulation. The least is {least}, at 500 V; do not energise it yet."),
     OHMWRIGHT_TEXT("To the frame or the wire beside it the ohmmeter shows more than {shown}, so there is no short; "
                    "with its few volts it proves no insulation. The least is {least}, at 500 V; do not energise it "
                    "yet.")},
    {InsulationText::tester_more_than, "tester-more-than",
     OHMWRIGHT_TEXT("To the frame the tester shows more than {shown}, at {volts}, and {least} is the least: whether "
                    "it has that much does not follow. Test it on a higher range; do not energise it until that is "
                    "decided."),
     OHMWRIGHT_TEXT("To the frame or the wire beside it the tester shows more than {shown}, at {volts}, and {least} "
                    "is the least: whether it has that much does not follow. Test it on a higher range; do not "
                    "energise it until that is decided.")},
    {InsulationText::few_volts, "few-volts",
     OHMWRIGHT_TEXT("To the frame it reads {measured}, tested with {volts}: too few to prove insulation against the "
                    "mains. Test it with 500 V, and do not energise it yet."),
     OHMWRIGHT_TEXT("It reads {measured} to the frame or the wire beside it, tested with {volts}: too few to prove "
                    "insulation against the mains. Test it with 500 V, and do not energise it yet.")},
    {InsulationText::few_volts_past_range, "few-volts-past-range",
     OHMWRIGHT_TEXT("To the frame the tester shows more than its range; with {volts} that proves no insulation "
                    "against the mains. The least is {least}, at 500 V; do not energise it yet."),
     OHMWRIGHT_TEXT("The tester shows more than its range; with {volts} that proves no insulation against the mains. "
                    "The least is {least}, at 500 V; do not energise it yet.")},
    {InsulationText::leaks_at_more_volts, "leaks-at-more-volts",
     OHMWRIGHT_TEXT("To the frame it has only {measured}, where {least} is the least, but it was tested with {volts}: "
                    "with more than 500 V a surge arrester may conduct. Do not energise it; test it again with 500 V."),
     OHMWRIGHT_TEXT("It has only {measured} to the frame or the wire beside it, where {least} is the least, but it "
                    "was tested with {volts}: with more than 500 V a surge arrester may conduct. Do not energise it; "
                    "test it again with 500 V.")},
    {InsulationText::repeats_differ, "repeats-differ",
     OHMWRIGHT_TEXT("To the frame the repeated readings differ, {measured} in the mean, and the lowest counts: one of "
                    "them may be below the {least} it needs. Give each by itself, the volts of the test behind each. "
                    "Do not energise it until that is decided."),
     OHMWRIGHT_TEXT("To the frame or the wire beside it the repeated readings differ, {measured} in the mean, and the "
                    "lowest counts: one of them may be below the {least} it needs. Give each by itself, the volts of "
                    "the test behind each. Do not energise it until that is decided.")},
    {InsulationText::only_live, "only-live", OHMWRIGHT_TEXT("Not judged: insulation is never read on a live part."),
     OHMWRIGHT_TEXT("Not judged: insulation is never read on a live part.")},
}};

constexpr bool insulation_rows_in_order() {
  for (std::size_t i = 0; i < insulation_rows.size(); ++i)
    if (insulation_rows[i].text != i) return false;
  return true;
}
static_assert(insulation_rows_in_order(), "a finding names a text by its place: a leak must not be told as a pass");

}  // namespace

std::vector<TextEntry> insulation_texts(InsulationPlace place, std::initializer_list<TextEntry> own) {
  std::vector<TextEntry> texts;
  texts.reserve(insulation_rows.size() + own.size());
  for (const InsulationRow& row : insulation_rows)
    texts.push_back({row.id, place == InsulationPlace::frame ? row.frame : row.frame_or_wire});
  texts.insert(texts.end(), own);
  return texts;
}

}  // namespace ohmwright
