#include "reading/figure_reader.hpp"
#include "reading/rule_reader.hpp"
#include "reading/text_reader.hpp"

namespace ohmwright::kind_file {

namespace {

class ContactReader {
 public:
  ContactReader(const ValueNode& contact, const Definition& definition, Notes& notes)
      : contact_(contact), definition_(definition), notes_(notes) {}

  ContactForm read() {
    ContactForm form;
    const bool closed_first = has("closed_below") || has("open_above");
    const bool open_first = has("open_below") || has("closed_above");
    const int forms = (has("must_be") ? 1 : 0) + (has("in_state") ? 1 : 0) + (closed_first || open_first ? 1 : 0);
    if (forms != 1 || (closed_first && open_first)) {
      notes_.say(contact_,
                 "a contact has \"must_be\", or \"in_state\", or \"closed_below\" and \"open_above\", or "
                 "\"open_below\" and \"closed_above\", one of the two or both");
      return form;
    }
    if (has("must_be"))
      read_always(form);
    else if (has("in_state"))
      read_in_state(form);
    else
      read_ends(closed_first, form);
    read_hysteresis(form);
    read_passes_on(form);
    read_single_operation(form);
    read_thresholds(form);
    return form;
  }

 private:
  bool has(std::string_view field) const { return contact_.find(field) != nullptr; }

  void read_always(ContactForm& form) {
    form.below = text_in(contact_, "must_be") == "open" ? ContactState::open : ContactState::closed;
    for (const char* field : {"condition", "passes_on"})
      if (has(field)) notes_.say(*contact_.find(field), "a contact that must always be one goes with no condition");
  }

  /// Index of a value of the state; a note where it has none of that name.
  std::uint16_t value_of(const ValueNode* named, std::uint16_t state) {
    return place_of(named, "value of that state", definition_.descriptor.states[state].values, notes_);
  }

  void read_in_state(ContactForm& form) {
    const ValueNode& node = *contact_.find("in_state");
    for (const char* field : {"condition", "single_operation"})
      if (has(field))
        notes_.say(*contact_.find(field), "a contact that a state decides goes with no " + std::string(field));
    const std::uint16_t state = place_of(node.find("state"), "state", definition_.descriptor.states, notes_);
    if (state == not_found) return;
    const std::vector<TextEntry>& values = definition_.descriptor.states[state].values;
    std::vector<int> times(values.size(), 0);
    form.set_by.state = state;
    form.set_by.is_closed.assign(values.size(), false);
    for (const char* field : {"closed", "open"})
      for (const ValueNode& named : list_in(node, field)) {
        const std::uint16_t value = value_of(&named, state);
        if (value == not_found) continue;
        ++times[value];
        form.set_by.is_closed[value] = field == std::string_view("closed");
      }
    for (std::size_t i = 0; i < times.size(); ++i)
      if (times[i] != 1)
        notes_.say(node, "the value " + ohmwright::quoted(std::string(values[i].id)) +
                             " stands once, under \"closed\" or under \"open\"");
    form.below = !values.empty() && form.set_by.is_closed.front() ? ContactState::closed : ContactState::open;
  }

  void read_hysteresis(ContactForm& form) {
    const ValueNode* node = contact_.find("hysteresis");
    if (node == nullptr) return;
    if (!form.lower_end.is_given() || !form.upper_end.is_given()) {
      notes_.say(*node, "hysteresis lies between two ends, and both have to be stated");
      return;
    }
    Hysteresis& keeps = form.hysteresis;
    const std::uint16_t state = place_of(node->find("state"), "state", definition_.descriptor.states, notes_);
    if (state == not_found) return;
    keeps.rising = value_of(node->find("rising"), state);
    keeps.falling = value_of(node->find("falling"), state);
    if (keeps.rising == keeps.falling && keeps.rising != not_found)
      notes_.say(*node->find("falling"), "rising and falling are two values");
    const Dimension along = definition_.descriptor.conditions[form.condition].dimension;
    keeps.rising_keeps_to = figure_in(*node, "rising_keeps_to", along, definition_, notes_);
    keeps.falling_keeps_to = figure_in(*node, "falling_keeps_to", along, definition_, notes_);
    keeps.state = state;
  }

  void read_ends(bool closed_first, ContactForm& form) {
    form.below = closed_first ? ContactState::closed : ContactState::open;
    if (!has("condition")) {
      notes_.say(contact_, "the field \"condition\" is missing: on what it depends whether the contact is closed");
      return;
    }
    form.condition = place_of(contact_.find("condition"), "condition", definition_.descriptor.conditions, notes_);
    if (form.condition == not_found) return;
    const Dimension along = definition_.descriptor.conditions[form.condition].dimension;
    form.lower_end = figure_in(contact_, closed_first ? "closed_below" : "open_below", along, definition_, notes_);
    form.upper_end = figure_in(contact_, closed_first ? "open_above" : "closed_above", along, definition_, notes_);
  }

  void read_passes_on(ContactForm& form) {
    if (!form.depends() && !form.is_set_by_state()) {
      form.passes_on_above = false;
      return;
    }
    form.passes_on_below = form.is_set_by_state() || form.lower_end.is_given();
    form.passes_on_above = form.is_set_by_state() || form.upper_end.is_given();
    const std::string_view asked = text_in(contact_, "passes_on");
    if (asked.empty()) return;
    const bool on_below = asked == "both" || asked == (form.below == ContactState::closed ? "closed" : "open");
    const bool on_above = asked == "both" || !on_below;
    if ((on_below && !form.passes_on_below) || (on_above && !form.passes_on_above)) {
      notes_.say(*contact_.find("passes_on"),
                 "it cannot pass on " + ohmwright::quoted(asked) + ": the contact does not say where that has to be");
    }
    form.passes_on_below = on_below;
    form.passes_on_above = on_above;
  }

  void read_single_operation(ContactForm& form) {
    form.single_operation = flag_in(contact_, "single_operation", false);
    if (form.single_operation && form.below != ContactState::closed)
      notes_.say(*contact_.find("single_operation"), "a contact of single operation is closed until it opens for good");
  }

  void read_thresholds(ContactForm& form) {
    const auto ohms = [this](const char* field, double otherwise) {
      const ValueNode* node = contact_.find(field);
      return node == nullptr ? otherwise : quantity_in(*node, Dimension::resistance, notes_).value_or(otherwise);
    };
    form.closed_up_to_ohms = ohms("closed_up_to", form.closed_up_to_ohms);
    form.open_from_ohms = ohms("open_from", form.open_from_ohms);
    if (form.closed_up_to_ohms >= form.open_from_ohms)
      notes_.say(contact_, "a contact is open from more ohms on than it is closed up to");
  }

  const ValueNode& contact_;
  const Definition& definition_;
  Notes& notes_;
};

/// What can be said where the contact is wrong or right: the end that was looked at, if it has one.
TextUse use_at_end(const ContactForm& form, bool at_lower_end, bool wrong) {
  TextUse use{true, 0};
  if (form.is_set_by_state()) return use;
  if (!form.depends()) {
    use.sayable = at_lower_end;  // the state that it must be in is the one of the lower end
    return use;
  }
  const bool closed_first = form.below == ContactState::closed;
  use.sayable = at_lower_end ? form.lower_end.is_given() : form.upper_end.is_given();
  use.fields = only(Field::at) | (wrong ? only(Field::chance_percent) : 0);
  if (at_lower_end)
    use.fields |= only(closed_first ? Field::closed_below : Field::open_below);
  else
    use.fields |= only(closed_first ? Field::open_above : Field::closed_above);
  return use;
}

std::array<TextUse, contact_text_count> uses_of(const ContactForm& form) {
  std::array<TextUse, contact_text_count> uses{};
  for (TextUse& use : uses) use = {true, only(Field::measured) | only(Field::range) | only(Field::missing)};
  const auto set = [&uses](ContactText text, TextUse use) { uses[static_cast<std::size_t>(text)] = use; };
  const bool closed_first = form.below == ContactState::closed;
  set(ContactText::closed_right, use_at_end(form, closed_first, false));
  set(ContactText::open_right, form.single_operation ? TextUse{} : use_at_end(form, !closed_first, false));
  set(ContactText::both_right, {form.passes_on_below && form.passes_on_above, 0});
  set(ContactText::closed_wrong, use_at_end(form, !closed_first, true));
  set(ContactText::open_wrong, form.single_operation ? TextUse{true, 0} : use_at_end(form, closed_first, true));
  set(ContactText::closed_either, {form.depends(), only(Field::at)});
  set(ContactText::open_either, {form.depends() && !form.single_operation, only(Field::at)});
  set(ContactText::open_in_circuit, {true, 0});
  set(ContactText::right_alone, {true, 0});
  set(ContactText::no_condition, {form.depends() || form.is_set_by_state(), 0});
  set(ContactText::no_figure, {form.depends(), 0});
  set(ContactText::states_to_read, {form.is_set_by_state(), only(Field::missing)});
  return uses;
}

}  // namespace

void read_contact(const ValueNode& rule, const Definition& definition, RuleForm& form, RuleDescriptor& descriptor,
                  Notes& notes) {
  const std::size_t before = notes.count();
  if (!definition.descriptor.measurands[form.measurand].takes_contact_state) {
    notes.say(*rule.find("measurand"),
              "a rule on a contact needs a measurand that takes \"open\" and \"closed\"; write \"contact_words\": true "
              "there");
  }
  if (descriptor.id == "insulation")
    notes.say(*rule.find("contact"),
              "a contact that is open proves no insulation; write \"insulation\": {\"least\": "
              "\"1 Mohm\"}");
  form.form = ContactReader(*rule.find("contact"), definition, notes).read();
  form.whole = notes.count() == before;
  descriptor.outcomes = can_pass | can_condemn | can_be_undecided;
  read_texts(contact_texts(), uses_of(*form.contact()), form, descriptor, notes);
}

}  // namespace ohmwright::kind_file
