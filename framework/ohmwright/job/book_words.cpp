#include <array>

#include <ohmwright/job/book_words.hpp>

namespace ohmwright::job {

namespace {

template <class Value>
struct BookWord {
  Value value;
  std::string_view word;
};
template <class Value>
BookWord(Value, std::string_view) -> BookWord<Value>;

constexpr std::array form_table{
    BookWord{EntryForm::opened, "opened"},       BookWord{EntryForm::phone, "phone"},
    BookWord{EntryForm::appliance, "appliance"}, BookWord{EntryForm::evidence, "evidence"},
    BookWord{EntryForm::agreed, "agreed"},       BookWord{EntryForm::reading, "reading"},
    BookWord{EntryForm::replaced, "replaced"},   BookWord{EntryForm::mended, "mended"},
    BookWord{EntryForm::checked, "checked"},     BookWord{EntryForm::stage, "stage"},
    BookWord{EntryForm::state, "state"},         BookWord{EntryForm::visit, "visit"},
    BookWord{EntryForm::note, "note"},           BookWord{EntryForm::taken_back, "taken-back"},
};

constexpr std::array state_table{
    BookWord{JobState::open, "open"},
    BookWord{JobState::declined, "declined"},
    BookWord{JobState::waits_for_part, "waiting-for-part"},
    BookWord{JobState::waits_for_log, "waiting-for-log"},
    BookWord{JobState::repaired, "repaired"},
    BookWord{JobState::stopped, "stopped-for-licensed-work"},
};

constexpr std::array check_table{
    BookWord{CheckForm::earth_bond, "earth-bond"},
    BookWord{CheckForm::forced_defrost, "forced-defrost"},
    BookWord{CheckForm::log, "log"},
};

constexpr std::array stage_table{
    BookWord{Stage::generic_appliance, "generic-appliance"},
    BookWord{Stage::looked, "looked"},
    BookWord{Stage::ice_cleared, "ice-cleared"},
    BookWord{Stage::refitted, "refitted"},
    BookWord{Stage::new_part_unread, "new-part-unread"},
    BookWord{Stage::panel_on, "panel-on"},
    BookWord{Stage::no_forced_defrost, "no-forced-defrost"},
    BookWord{Stage::no_log, "no-log"},
};

constexpr std::array listed_states{JobState::open,          JobState::declined, JobState::waits_for_part,
                                   JobState::waits_for_log, JobState::repaired, JobState::stopped};

template <class Table, class Value>
std::string_view word_in(const Table& table, Value value) {
  for (const auto& row : table)
    if (row.value == value) return row.word;
  return {};
}

template <class Value, class Table>
std::optional<Value> value_in(const Table& table, std::string_view word) {
  for (const auto& row : table)
    if (row.word == word) return row.value;
  return std::nullopt;
}

}  // namespace

std::string_view name_of(EntryForm form) { return word_in(form_table, form); }
std::optional<EntryForm> entry_form_named(std::string_view name) { return value_in<EntryForm>(form_table, name); }

std::string_view name_of(JobState state) { return word_in(state_table, state); }
std::optional<JobState> job_state_named(std::string_view name) { return value_in<JobState>(state_table, name); }
std::span<const JobState> all_job_states() { return listed_states; }
bool is_closed(JobState state) {
  return state == JobState::declined || state == JobState::repaired || state == JobState::stopped;
}

std::string_view name_of(CheckForm form) { return word_in(check_table, form); }
std::optional<CheckForm> check_form_named(std::string_view name) { return value_in<CheckForm>(check_table, name); }

std::string_view name_of(Stage stage) { return word_in(stage_table, stage); }
std::optional<Stage> stage_named(std::string_view name) { return value_in<Stage>(stage_table, name); }

}  // namespace ohmwright::job
