#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright::course {

/// One thing that a student did: what was wished, and what came of it.
struct Entry {
  std::string action;        ///< start, unplug, prove-dead, plug-in, measure, look, note, answer
  std::string subject = {};  ///< test point, look, words; of a start: the exercise
  std::string set_up = {};   ///< empty: as found
  std::string leads = {};    ///< "off", "in", or empty where the test point has none to choose
  std::string range = {};    ///< "auto", or the range's name: "6 kohm"
  bool live_agreed = false;

  std::string shown = {};                 ///< "294.0 ohm", "OL", "yes", "no"
  double minutes = 0.0;                   ///< that it took
  std::vector<std::string> hazards = {};  ///< ids, see practice.hpp

  // Of an answer:
  std::vector<std::string> named = {};     ///< "PART", or "PART.FAULT" by their ids; empty: nothing
  std::vector<std::size_t> because = {};   ///< numbers of entries of this record
  double confidence = 0.0;                 ///< that the answer is right [0…1]
  std::vector<std::string> students = {};  ///< "Name: role"; of a start, too
  std::string file = {};                   ///< of a start: SHA-256 of the exercise's file

  friend bool operator==(const Entry&, const Entry&) = default;
};

/// What was done, in order. The first entry is the start; an entry's number is its place, the start being 0.
struct Record {
  std::vector<Entry> entries;
  std::optional<std::size_t> broken_at;  ///< the first entry whose link does not hold: the record was edited there
};

/// The line that is appended for an entry after a record's text so far. Each line carries the SHA-256 of the line
/// before it and of itself, so that whoever edits one line breaks the chain. Whoever writes a program can forge the
/// chain.
std::string record_line(const Entry& entry, std::string_view text_so_far);

/// Reads a record. A broken chain is no error, it is noted. Throws DocumentError for what is no record.
Record read_record(std::string_view text, const std::string& file);

}  // namespace ohmwright::course
