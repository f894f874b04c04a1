#include <ohmwright/quantity/message.hpp>

#include "model/texts.hpp"

namespace ohmwright::kind_file {

namespace {

constexpr FieldSet of_value = only(Field::measured) | only(Field::least);
constexpr FieldSet of_test = of_value | only(Field::volts);
constexpr FieldSet past_range = only(Field::least);
constexpr FieldSet of_test_past_range = past_range | only(Field::volts);

/// What may stand in a text of core's, as `judge_insulation_reading` tells it.
FieldSet fields_of_insulation(TextIndex text) {
  switch (text) {
    case InsulationText::insulates:
    case InsulationText::insulates_at_fewer_volts:
    case InsulationText::few_volts:
    case InsulationText::leaks_at_more_volts:
      return of_test;
    case InsulationText::insulates_past_range:
    case InsulationText::insulates_past_range_at_fewer_volts:
    case InsulationText::few_volts_past_range:
      return of_test_past_range;
    case InsulationText::tester_more_than:
      return of_test_past_range | only(Field::shown);
    case InsulationText::ohmmeter_more_than:
      return past_range | only(Field::shown);
    case InsulationText::ohmmeter_past_range:
      return past_range;
    case InsulationText::only_live:
      return 0;
    default:
      return of_value;
  }
}

std::array<TextRow, insulation_text_count> make_insulation_texts() {
  const std::vector<TextEntry> entries = ohmwright::insulation_texts(
      InsulationPlace::frame,
      {{"still-to-read", OHMWRIGHT_TEXT("Its insulation to the frame was not read, and what else was read says nothing "
                                        "of it: it is not yet proved safe to energise.")},
       {"not-read",
        OHMWRIGHT_TEXT("Not judged: the insulation to the frame was not read, and other ohms say nothing of it.")},
       {"no-figure", OHMWRIGHT_TEXT("Not judged: the ratings of this part do not state its least insulation.")}});
  std::array<TextRow, insulation_text_count> rows;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const bool is_own = i >= InsulationText::first_own;
    rows[i] = {entries.at(i).id, "", entries.at(i).english,
               is_own ? FieldSet{0} : fields_of_insulation(static_cast<TextIndex>(i))};
  }
  return rows;
}

}  // namespace

const std::array<TextRow, insulation_text_count>& insulation_texts() {
  static const std::array<TextRow, insulation_text_count> texts = make_insulation_texts();
  return texts;
}

}  // namespace ohmwright::kind_file
