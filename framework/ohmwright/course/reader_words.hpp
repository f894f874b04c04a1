#pragma once

#include <string>
#include <utility>

#include <ohmwright/course/exercise.hpp>
#include <ohmwright/course/record.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

// An exercise is in the language of whoever made it. What the framework knows by its identifier is said in the
// reader's: above all what can hurt.

/// A caution (identifier and words of the file).
std::string caution_in_words(const std::pair<std::string, std::string>& caution, const Sentences& say);

/// What can be looked at.
std::string look_in_words(const Look& look, const Sentences& say);

/// What an owner says who sees that symptom, in words; of none, that something is wrong.
std::string sentence_of_owner(const std::string& symptom, const Sentences& say);

/// What is asked of a part that lies on the table.
std::string sentence_of_the_table(const Sentences& say);

/// What brought the student there: in the reader's language where it was made in English, of a symptom that is known.
std::string complaint_in_words(const Exercise& exercise, const Sentences& say);

/// Where an entry measured or looked, as it is typed: "thermostat-alone@thawed lead-off".
std::string place_in_words(const Entry& entry);

/// What it showed: a reading as the meter has it, else in words.
std::string shown_in_words(const Entry& entry, const Sentences& say);

/// Why a residual-current device trips by a leak of more ohms than its amperes would ask for; English.
std::string_view about_leaks_that_trip();

/// The same in short where an exercise has such a look, else nothing.
std::string remark_on_looks(const Exercise& exercise, const Sentences& say);

/// What is stamped on the parts, one line each: "Defrost heater: 450 W at 120 V".
std::vector<std::string> plates_of(const Exercise& exercise);

/// How warm each zone is as found, one line each: "evaporator coil (Defrost sensor): −18.0 °C ± 5.0 K".
std::vector<std::string> temperatures_as_found(const Exercise& exercise);

/// A set-up's title, and how warm it leaves what it warms or chills.
std::string set_up_in_words(const Exercise& exercise, std::size_t set_up);

}  // namespace ohmwright::course
