#include "job/appliance.hpp"

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/appliance/appliance_readings.hpp>
#include <ohmwright/appliance/file_text.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/report/appliance_words.hpp>

#include "appliance/files.hpp"
#include "kind_files.hpp"

namespace ohmwright::cli {

namespace {

/// Of books of the first versions, which kept the name alone. Throws InputError where none of that name is shipped now.
Appliance shipped_then(const std::string& name, const Environment& environment) {
  try {
    return open_appliance(environment, name);
  } catch (const InputError& error) {
    throw InputError(std::string(error.what()) +
                     "; or name that of the job anew: ohmwright job sign --appliance NAME|FILE");
  }
}

Appliance appliance_as_in_its_file(const job::ServiceCall& call, const Environment& environment) {
  if (!call.has_appliance())
    throw InputError(
        "the job has no appliance, so nothing can be looked for in it; name one: ohmwright job sign --appliance "
        "NAME|FILE (ohmwright appliance list), or judge a part alone: ohmwright job read KIND READING");
  if (call.appliance_file.empty()) return shipped_then(call.appliance, environment);
  Appliance appliance = in_readers_words(
      read_appliance(parse_document_to_check(call.appliance_file, "the job's appliance"), environment.registry));
  for (const PlacedPart& part : appliance.parts) open_kind(environment, std::string(part.kind->descriptor().id));
  return appliance;
}

}  // namespace

Appliance appliance_of(const job::ServiceCall& call, const Environment& environment) {
  Appliance appliance = appliance_as_in_its_file(call, environment);
  add_cooling(appliance);
  return appliance;
}

namespace {

/// `name`: of a shipped one; empty for a file of somebody's own.
job::NewEntry appliance_entry_of(const std::string& name, const std::string& file_text, const std::string& called,
                                 const Environment& environment) {
  const Appliance appliance = read_appliance(parse_document_to_check(file_text, called), environment.registry);
  return {job::EntryForm::appliance, job::ContentWriter()
                                         .text("name", name)
                                         .text("title", appliance.title)
                                         .text("refrigerant", appliance.refrigerant)
                                         .json("file", file_text)
                                         .content()};
}

}  // namespace

job::NewEntry appliance_entry_of_text(const std::string& file_text, const std::string& called,
                                      const Environment& environment) {
  return appliance_entry_of({}, file_text, called, environment);
}

job::NewEntry appliance_entry(const std::string& name_or_file, const Environment& environment) {
  const Document document = read_document(appliance_path(environment, name_or_file));
  return appliance_entry_of(is_path(name_or_file) ? std::string() : name_or_file, file_text(document.root),
                            document.file, environment);
}

}  // namespace ohmwright::cli
