#include <libintl.h>

#include <ohmwright/report/appliance_words.hpp>

namespace ohmwright {

namespace {

void translate(std::string& text) {
  if (!text.empty()) text = ::dgettext(appliance_text_domain, text.c_str());  // of an empty one: the catalogue's head
}

template <class Row>
void translate_titles(std::vector<Row>& rows) {
  for (Row& row : rows) translate(row.title);
}

}  // namespace

std::string in_readers_words(const std::string& text) {
  std::string translated = text;
  translate(translated);
  return translated;
}

Appliance in_readers_words(Appliance appliance) {
  translate(appliance.title);
  translate_titles(appliance.zones);
  translate_titles(appliance.covers);
  translate_titles(appliance.parts);
  translate_titles(appliance.test_points);
  translate_titles(appliance.set_ups);
  translate_titles(appliance.symptoms);
  translate_titles(appliance.outside_causes);
  translate_titles(appliance.part_looks);
  for (SetUp& set_up : appliance.set_ups) {
    for (std::string& step : set_up.steps) translate(step);
    translate(set_up.confirmed_by);
    translate(set_up.way_out);
  }
  for (OutsideCause& cause : appliance.outside_causes) translate(cause.check);
  for (PartLook& look : appliance.part_looks) translate(look.check);
  for (BoardCode& code : appliance.codes) translate(code.meaning);
  return appliance;
}

}  // namespace ohmwright
