#include <charconv>
#include <filesystem>
#include <ostream>
#include <span>

#include <fmt/format.h>

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/course/key.hpp>
#include <ohmwright/course/lesson.hpp>
#include <ohmwright/course/practice_page.hpp>
#include <ohmwright/course/secret.hpp>
#include <ohmwright/document/meter_record.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/document/write_file.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/appliance_words.hpp>
#include <ohmwright/report/sentences.hpp>

#include "appliance/files.hpp"
#include "course/actions.hpp"
#include "course/files.hpp"
#include "course/kind.hpp"
#include "exit_codes.hpp"
#include "kind_files.hpp"

namespace ohmwright::cli {

namespace {

constexpr std::uint64_t most_exercises = 200;

std::uint64_t whole_number(const Arguments& arguments, std::string_view option, std::uint64_t otherwise,
                           std::uint64_t least, std::uint64_t most) {
  if (!arguments.has(option)) return otherwise;
  const std::string text = arguments.value(option);
  std::uint64_t number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || end != text.data() + text.size() || number < least || number > most)
    throw InputError(
        fmt::format("{} takes a whole number from {} to {}, got {}", option, least, most, ohmwright::quoted(text)));
  return number;
}

/// Of a kind there is one part, which lies on the table.
course::Lesson lesson_asked_for(const Arguments& arguments, bool of_a_kind) {
  const course::Lesson lesson = course::lesson_named(arguments.value("--lesson", of_a_kind ? "one-part" : "one-fault"));
  if (of_a_kind && lesson != course::Lesson::one_part)
    throw InputError("a kind makes the lesson one-part alone; for " + std::string(course::name_of(lesson)) +
                     " name an appliance");
  return lesson;
}

std::optional<std::size_t> part_asked_for(const Arguments& arguments, const Appliance& appliance,
                                          course::Lesson lesson) {
  if (!arguments.has("--part")) return std::nullopt;
  if (lesson != course::Lesson::one_part)
    throw InputError("--part says which part lies on the table: it goes with --lesson one-part alone");
  const std::string name = arguments.value("--part");
  std::vector<std::string> known;
  for (std::size_t i = 0; i < appliance.parts.size(); ++i) {
    if (appliance.parts[i].id == name) return i;
    known.push_back(appliance.parts[i].id);
  }
  throw InputError("the appliance has no part " + ohmwright::quoted(name) + did_you_mean(name, known));
}

/// The key of another class would be lost for good.
void refuse_a_key_that_is_there(const std::string& key_file) {
  std::error_code error;
  if (std::filesystem::exists(std::filesystem::symlink_status(key_file, error)))
    throw InputError("there is a file " + ohmwright::quoted(key_file) +
                     ", perhaps the key of another class; name another with --key FILE, or remove it");
}

/// Students' files of another set would be lost, or mixed with these.
void refuse_exercises_that_are_there(const std::filesystem::path& folder) {
  std::error_code error;
  for (const std::filesystem::directory_entry& file : std::filesystem::directory_iterator(folder, error)) {
    const std::string name = file.path().filename().string();
    if (name.rfind("exercise-", 0) == 0)
      throw InputError(ohmwright::quoted(folder.string()) + " holds " + ohmwright::quoted(name) +
                       " of another set; name another folder with --out, or empty this one");
  }
}

/// All that a set is made from: what differs in any of it shares neither draws nor names.
std::string made_from(const Arguments& arguments, const course::CourseKey& key, course::Lesson lesson,
                      std::uint64_t seed) {
  return fmt::format("{}\n{}\n{}\n{}\n{}\n{}", course::sha256_text(key.appliance_text),
                     course::sha256_text(meters_record(std::span(&key.meter, 1))), course::name_of(lesson), seed,
                     arguments.value("--part"), arguments.value("--course"));
}

void make_all(course::Workshop& workshop, const course::Order& order, std::uint64_t count, course::CourseKey& key) {
  for (std::uint64_t index = 0; index < count; ++index)
    key.exercises.push_back(workshop.make({order.lesson, index, order.part}));
}

/// The folder for the students' files. The key must not lie among them.
std::filesystem::path exercise_folder(const Arguments& arguments, const std::string& key_file) {
  std::filesystem::path folder(arguments.value("--out", "exercises"));
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (!std::filesystem::is_directory(folder, error))
    throw InputError("cannot make the folder " + ohmwright::quoted(folder.string()) + "; name another with --out");
  const std::filesystem::path beside = std::filesystem::absolute(key_file).parent_path();
  if (std::filesystem::equivalent(folder, beside, error))
    throw InputError("the key would lie among the students' files; name another place with --key FILE");
  refuse_exercises_that_are_there(folder);
  return folder;
}

/// The exercise as a file, and as a page where one was asked for.
void write_student_files(const course::Exercise& exercise, const std::filesystem::path& stem, bool as_page) {
  const std::string text = exercise_text(exercise);
  write_file_atomically(stem.string() + ".json", text);
  if (as_page)
    write_file_atomically(stem.string() + ".html", practice_page(exercise, text, Sentences{UnitPreferences{}}));
}

}  // namespace

int course_make(const Arguments& arguments, Environment& environment) {
  const std::string& name = course_operand(arguments, 1, "APPLIANCE");
  const course::Lesson lesson = lesson_asked_for(arguments, names_a_kind(environment, name));
  const std::uint64_t seed = whole_number(arguments, "--seed", 1, 0, 999'999'999);
  const std::uint64_t count = whole_number(arguments, "--count", 1, 1, most_exercises);
  const std::string key_file = arguments.value("--key", "course.key");
  course::CourseKey key{appliance_text_for(environment, name, arguments.value("--ratings")),
                        chosen_meter(environment, arguments.value("--meter")),
                        {}};
  const Appliance appliance = in_readers_words(
      read_appliance(parse_document_to_check(key.appliance_text, name, course::course_limits()), environment.registry));
  for (const PlacedPart& part : appliance.parts) open_kind(environment, std::string(part.kind->descriptor().id));
  course::refuse_meter_that_cannot_read(key.meter, appliance, lesson);
  refuse_a_key_that_is_there(key_file);
  const course::Order order{lesson, 0, part_asked_for(arguments, appliance, lesson)};
  const course::CourseSecret secret(course_passphrase(arguments, PassphraseFor::new_key),
                                    made_from(arguments, key, lesson, seed));
  const std::filesystem::path folder = exercise_folder(arguments, key_file);  // what is refused before leaves none
  course::Workshop workshop(appliance, key.meter, secret);
  try {
    make_all(workshop, order, count, key);
  } catch (const InputError&) {
    if (!names_a_kind(environment, name)) throw;
    const std::string advice = advice_on_ratings(open_kind(environment, name), arguments.value("--ratings"));
    if (advice.empty()) throw;
    throw InputError("no fault of a part of which nothing is known can be told by ohms; " + advice);
  }
  write_file_atomically(key_file, secret.seal(course::key_text(key)));  // first: without it they cannot be marked
  for (std::size_t i = 0; i < key.exercises.size(); ++i)
    write_student_files(key.exercises[i].exercise, folder / course::exercise_file_name(i), arguments.has("--page"));
  const Sentences say{UnitPreferences{}};
  environment.out << paragraph(say(OHMWRIGHT_TEXT("{count} exercises in {folder}; the key, sealed, in {key}. Keep the "
                                                  "passphrase: without it nobody can mark them."),
                                   {{"count", std::to_string(count)}, {"folder", folder.string()}, {"key", key_file}}),
                               environment.page.width);
  return exit_done;
}

}  // namespace ohmwright::cli
