#include <array>
#include <cstddef>

#include <ohmwright/job/proof_form.hpp>
#include <ohmwright/quantity/message.hpp>

namespace ohmwright::job {

namespace {

using Form = ProofForm;

constexpr std::string_view read_insulation = "ohmwright job read {part} insulation=200M --test 500V --proved-dead";
constexpr std::string_view read_any_insulation = "ohmwright job read PART insulation=200M --test 500V --proved-dead";
constexpr std::string_view read_bond =
    "ohmwright job verify --earth-bond 0.12ohm --test-current 10A, or --earth-bond none";
constexpr std::string_view read_part = "ohmwright job read {reading}";
constexpr std::string_view put_new_one_in = "ohmwright job replace {part} --new NAME; or ohmwright job correct ENTRY";
constexpr std::string_view repair_it =
    "ohmwright job replace PART --new NAME, or --mended TEXT; or ohmwright job correct ENTRY";
constexpr std::string_view force_again =
    "ohmwright job verify --forced-defrost ended --live-agreed; or ohmwright job correct ENTRY";
constexpr std::string_view log_it = "ohmwright job verify --before BEFORE.csv --log AFTER.csv (ohmwright job wait log)";

constexpr std::array proof_rows{
    ProofRow{.form = Form::leak_to_earth,
             .bars = Bars::energising,
             .is_danger = true,
             .sentence = OHMWRIGHT_TEXT("STOP, do not energise it: something leaks to earth, as was read at "
                                        "\"{part}\". Mend it, then read it there again: a value, or OL with its "
                                        "range."),
             .command = "ohmwright job read {part}=VALUE"},
    ProofRow{.form = Form::insulation_not_within,
             .bars = Bars::energising,
             .is_danger = true,
             .sentence = OHMWRIGHT_TEXT("The insulation of {part} is not within limits: do not energise it; dry or "
                                        "replace it, then read its insulation again."),
             .command = read_insulation},
    ProofRow{.form = Form::insulation_below_class_two,
             .bars = Bars::energising,
             .is_danger = true,
             .sentence = OHMWRIGHT_TEXT("The insulation of {part} would do beside a protective earth, and there is "
                                        "none (class II): at least 2 MΩ is asked then. Do not energise it; dry or "
                                        "replace it, then read its insulation again. Has it an earth after all, read "
                                        "its bond."),
             .command = read_insulation},
    ProofRow{
        .form = Form::insulation_undecided,
        .bars = Bars::energising,
        .sentence = OHMWRIGHT_TEXT("The insulation of {part} is not decided: read it again, its leads off, at 500 V; a "
                                   "part or wire at low voltage, a sensor's, with an ohmmeter alone."),
        .command = read_insulation},
    ProofRow{.form = Form::leak_unexplained,
             .bars = Bars::energising,
             .is_danger = true,
             .sentence = OHMWRIGHT_TEXT("{part} leaked, as was read before, and insulates now though nothing was done "
                                        "to it: what water did comes back with the water. Wet it and test it with "
                                        "500 V again, mend it or replace it; a slip is taken back."),
             .of_mended = OHMWRIGHT_TEXT("{part} leaked while it was wet, and was read dry alone since it was mended: "
                                         "wet it, and test it with 500 V again."),
             .command = "ohmwright job read {part} insulation=200M --test 500V --wet --proved-dead; or ohmwright job "
                        "correct ENTRY"},
    ProofRow{.form = Form::leak_fell_away,
             .bars = Bars::closing,
             .is_danger = true,
             .sentence = OHMWRIGHT_TEXT("Something leaked to earth, as was read at \"{part}\", and leaks no more "
                                        "though nothing was done: what water did comes back with the water. Find what "
                                        "it was, mend or replace it, or wet it and test its insulation with 500 V; a "
                                        "slip is taken back."),
             .command = repair_it},
    ProofRow{.form = Form::leak_beside,
             .bars = Bars::energising,
             .is_danger = true,
             .sentence = OHMWRIGHT_TEXT("STOP, do not energise it: read with its leads on {part} leaked, and alone it "
                                        "does not, so what is connected to it leaks. Find that and mend or replace it, "
                                        "or read {part} with its leads on again; a slip is taken back."),
             .command = "ohmwright job read {part} insulation=200M --test 500V --in-circuit --proved-dead; or "
                        "ohmwright job correct ENTRY"},
    ProofRow{.form = Form::insulation_unread,
             .bars = Bars::energising,
             .sentence = OHMWRIGHT_TEXT("{part} was replaced, and its insulation was not read since."),
             .of_mended = OHMWRIGHT_TEXT("{part} was mended in place, and its insulation was not read since."),
             .command = read_insulation},
    ProofRow{.form = Form::electronics_unread,
             .bars = Bars::energising,
             .sentence = OHMWRIGHT_TEXT("{part} was replaced, and its insulation was not read since: with an ohmmeter, "
                                        "never with 500 V, which would destroy its electronics."),
             .of_mended = OHMWRIGHT_TEXT("{part} was mended in place, and its insulation was not read since: with an "
                                         "ohmmeter, never with 500 V, which would destroy its electronics."),
             .command = "ohmwright job read {part} insulation=OL --proved-dead --lead-off"},
    ProofRow{.form = Form::circuit_insulation_unread,
             .bars = Bars::energising,
             .sentence = OHMWRIGHT_TEXT("{part} was replaced, and no insulation was read since: unplugged and proved "
                                        "dead, read a part that lies at the mains, and none of a sensor's low-voltage "
                                        "circuit."),
             .of_mended = OHMWRIGHT_TEXT("{part} was mended in place, and no insulation was read since: unplugged and "
                                         "proved dead, read a part that lies at the mains, and none of a sensor's "
                                         "low-voltage circuit."),
             .command = read_any_insulation},
    ProofRow{.form = Form::no_insulation_read,
             .bars = Bars::energising,
             .sentence = OHMWRIGHT_TEXT("It tingles, smells burnt, trips or leaks to earth, and no insulation tester "
                                        "has read its insulation good since."),
             .command = read_any_insulation},
    ProofRow{.form = Form::earth_bond_not_within,
             .bars = Bars::energising,
             .is_danger = true,
             .sentence = OHMWRIGHT_TEXT("The earth bond is not within limits: mend the earth lead or its joints, then "
                                        "read it again."),
             .command = read_bond},
    ProofRow{.form = Form::earth_bond_undecided,
             .bars = Bars::energising,
             .sentence = OHMWRIGHT_TEXT("The earth bond is not decided: read it with a bond tester of 10 A or more."),
             .command = read_bond},
    ProofRow{.form = Form::earth_bond_unread,
             .bars = Bars::energising,
             .sentence = OHMWRIGHT_TEXT("The earth bond was not read since a part was replaced, or since it tingled."),
             .of_mended = OHMWRIGHT_TEXT("The earth bond was not read since a part was mended in place."),
             .command = read_bond},
    ProofRow{.form = Form::condemned_for_good,
             .bars = Bars::energising,
             .matter = ProofMatter::part,
             .is_danger = true,
             .sentence = OHMWRIGHT_TEXT("STOP, do not energise it: {part} opens once and for good, was out of its "
                                        "limits at {place}, and no new one went in since. What conducts there now may "
                                        "be a bridge. Replace it; if that reading was a slip, take it back."),
             .command = put_new_one_in},
    ProofRow{.form = Form::new_part_not_within,
             .bars = Bars::energising,
             .matter = ProofMatter::part,
             .sentence = OHMWRIGHT_TEXT("{part}: the new one is out of its limits, as was read at {place}. Find out "
                                        "why, or replace it, then read it there again."),
             .of_mended = OHMWRIGHT_TEXT("{part} was mended in place, and is out of its limits all the same, as was "
                                         "read at {place}. Find out why, or replace it, then read it there again."),
             .command = read_part},
    ProofRow{.form = Form::heat_did_not_end,
             .bars = Bars::energising,
             .matter = ProofMatter::failed_check,
             .is_danger = true,
             .sentence = OHMWRIGHT_TEXT("STOP, unplug it now: the last forced defrost heated and did not end by "
                                        "itself. Find what should have ended it (sensor, thermostat, control), replace "
                                        "or mend it; if that was mistyped, take it back."),
             .command = repair_it},
    ProofRow{.form = Form::opened_for_good,
             .bars = Bars::closing,
             .matter = ProofMatter::part,
             .sentence = OHMWRIGHT_TEXT("{part} was out of its limits at {place}, and opens once and for good: find "
                                        "what overheated it, then replace it, never bridge it. If that reading was a "
                                        "slip, take it back."),
             .command = put_new_one_in},
    ProofRow{.form = Form::part_not_within,
             .bars = Bars::closing,
             .matter = ProofMatter::part,
             .sentence = OHMWRIGHT_TEXT("{part} is out of its limits, as was read at {place}; nothing read of it since "
                                        "shows it good, and nothing says that it was replaced or mended. Say which it "
                                        "was, then read it again; a slip is taken back."),
             .command = "ohmwright job replace {part} --new NAME, or --mended TEXT, then ohmwright job read {reading}; "
                        "or ohmwright job correct ENTRY"},
    ProofRow{.form = Form::mended_unread,
             .bars = Bars::closing,
             .matter = ProofMatter::part,
             .sentence = OHMWRIGHT_TEXT("{part} was mended in place, and nothing was read since that shows it good: "
                                        "read it at {place}."),
             .command = read_part},
    ProofRow{.form = Form::insulation_unproved,
             .bars = Bars::closing,
             .sentence = OHMWRIGHT_TEXT("It was opened on this visit to read it, and no insulation tester read an "
                                        "insulation in it good."),
             .command = read_any_insulation},
    ProofRow{.form = Form::earth_bond_unproved,
             .bars = Bars::closing,
             .sentence = OHMWRIGHT_TEXT("It was opened on this visit to read it, and its earth bond was not read."),
             .command = read_bond},
    ProofRow{.form = Form::heat_did_not_come,
             .bars = Bars::closing,
             .matter = ProofMatter::failed_check,
             .sentence =
                 OHMWRIGHT_TEXT("The last forced defrost did not heat. Find out why, mend it, then force one again."),
             .command = repair_it},
    ProofRow{.form = Form::log_shows_fault,
             .bars = Bars::closing,
             .matter = ProofMatter::failed_check,
             .sentence = OHMWRIGHT_TEXT("The last log shows a fault. Find out why, mend it, then log it again."),
             .command = log_it},
    ProofRow{.form = Form::heat_end_unproved,
             .bars = Bars::closing,
             .matter = ProofMatter::failed_check,
             .is_danger = true,
             .sentence = OHMWRIGHT_TEXT("A forced defrost heated and did not end by itself, and none has ended by "
                                        "itself since. Be sure that what should have ended it (sensor, thermostat, "
                                        "control) was replaced or mended, then force one again and stay beside it; "
                                        "until one has ended it is not left plugged in. If that was mistyped, take it "
                                        "back."),
             .command = force_again},
    ProofRow{.form = Form::heat_unproved,
             .bars = Bars::closing,
             .matter = ProofMatter::failed_check,
             .sentence = OHMWRIGHT_TEXT("A forced defrost did not heat, and none has heated and ended by itself since: "
                                        "force one again."),
             .command = force_again},
    ProofRow{.form = Form::log_unproved,
             .bars = Bars::closing,
             .matter = ProofMatter::failed_check,
             .sentence = OHMWRIGHT_TEXT("A log showed a fault, and none since shows it gone: log it again."),
             .command = log_it},
    ProofRow{.form = Form::limit_unread,
             .matter = ProofMatter::part,
             .sentence = OHMWRIGHT_TEXT("{part} limits the heat, and nothing read since it went in shows that it "
                                        "would: read it at {place} good, or a thermostat open where it is surely "
                                        "warmer than it opens (say how warm), twice, or closed before."),
             .of_mended = OHMWRIGHT_TEXT("{part} limits the heat, and nothing read since it was mended shows that it "
                                         "would: read it at {place} good, or a thermostat open where it is surely "
                                         "warmer than it opens (say how warm), twice, or closed before."),
             .command = read_part},
    ProofRow{
        .form = Form::new_part_undecided,
        .bars = Bars::closing_without_a_word,
        .sentence = OHMWRIGHT_TEXT("{part}: whether the new one is good cannot be told by what was read at {place}."),
        .of_mended = OHMWRIGHT_TEXT("{part}: whether it is good, mended, cannot be told by what was read at {place}."),
        .command = read_part},
    ProofRow{.form = Form::new_part_unread,
             .bars = Bars::closing_without_a_word,
             .sentence = OHMWRIGHT_TEXT("{part}: the new one was not read as the old one was, at {place}."),
             .command = read_part},
    ProofRow{.form = Form::cause_unlooked_for,
             .bars = Bars::closing_without_a_word,
             .sentence = OHMWRIGHT_TEXT("{part} opens once and for good, and nothing says what overheated the old one: "
                                        "a thermostat or relay that is welded, a sensor off its place, no air. While "
                                        "it is there, the new one opens, too."),
             .command = "ohmwright job sign --looked CAUSE=found; or a forced defrost that ends by itself"},
    ProofRow{.form = Form::trip_unlooked_for,
             .bars = Bars::closing_without_a_word,
             .sentence = OHMWRIGHT_TEXT("{part} had tripped, and nothing says what overheated it: no air, no water, a "
                                        "thermostat or relay that is welded. While it is there, it trips again."),
             .command = "ohmwright job sign --looked CAUSE=found; or ohmwright job read what overheated it, then "
                        "ohmwright job replace"},
    ProofRow{.form = Form::forced_defrost,
             .sentence = OHMWRIGHT_TEXT("A forced defrost."),
             .command = "ohmwright job verify --forced-defrost ended --live-agreed"},
    ProofRow{.form = Form::log, .sentence = OHMWRIGHT_TEXT("A log over some days."), .command = log_it},
};

constexpr bool each_form_has_its_row() {
  for (std::size_t i = 0; i < proof_rows.size(); ++i)
    if (proof_rows[i].form != static_cast<Form>(i)) return false;
  return proof_rows.back().form == Form::log;
}
static_assert(each_form_has_its_row(), "one row a form, in the order of the enumeration");

}  // namespace

const ProofRow& row_of(ProofForm form) { return proof_rows[static_cast<std::size_t>(form)]; }

}  // namespace ohmwright::job
