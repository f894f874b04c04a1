#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <ohmwright/course/key.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/meter_record.hpp>
#include <ohmwright/document/record_values.hpp>

namespace ohmwright::course {

std::string exercise_file_name(std::size_t place) { return fmt::format("exercise-{:03}", place + 1); }

std::string key_text(const CourseKey& key) {
  nlohmann::ordered_json json;
  json["appliance"] = key.appliance_text;
  json["meter"] = meters_record(std::span(&key.meter, 1));
  json["exercises"] = nlohmann::ordered_json::array();
  for (const MadeExercise& made : key.exercises) {
    nlohmann::ordered_json row;
    row["exercise"] = made.truth.exercise;
    row["lesson"] = name_of(made.truth.lesson);
    row["table_part"] = made.truth.table_part ? nlohmann::ordered_json(*made.truth.table_part) : nullptr;
    row["faults"] = nlohmann::ordered_json::array();
    for (std::size_t i = 0; i < made.truth.faults.size(); ++i)
      row["faults"].push_back(
          {{"part", made.truth.faults[i].part}, {"fault", made.truth.faults[i].fault}, {"name", made.truth.names[i]}});
    row["tellable"] = made.truth.tellable;
    row["file"] = exercise_text(made.exercise);
    json["exercises"].push_back(std::move(row));
  }
  return json.dump();
}

CourseKey read_key(const std::string& text, const std::string& file) {
  DocumentLimits limits = course_limits();
  limits.text_bytes = std::size_t{16} << 20U;
  const Document document = parse_document(text, file, limits);
  const RecordReader read(file);
  CourseKey key{read.text(read.field(document.root, "appliance")),
                meters_from_record(read.text(read.field(document.root, "meter")), file).at(0),
                {}};
  constexpr std::size_t many = 65535;
  for (const ValueNode& row : read.list(read.field(document.root, "exercises"))) {
    Truth truth;
    truth.exercise = read.text(read.field(row, "exercise"));
    truth.lesson = lesson_named(read.text(read.field(row, "lesson")));
    const ValueNode& part = read.field(row, "table_part");
    if (part.number() != nullptr) truth.table_part = read.index(part, many);
    for (const ValueNode& fault : read.list(read.field(row, "faults"))) {
      truth.faults.push_back({read.index(read.field(fault, "part"), many),
                              static_cast<std::uint16_t>(read.index(read.field(fault, "fault"), many))});
      truth.names.push_back(read.text(read.field(fault, "name")));
    }
    truth.tellable = read.number(read.field(row, "tellable"));
    Exercise exercise =
        read_exercise(parse_document_to_check(read.text(read.field(row, "file")), file, course_limits()));
    key.exercises.push_back({std::move(exercise), std::move(truth)});
  }
  return key;
}

}  // namespace ohmwright::course
