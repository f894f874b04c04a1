#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright::course {

/// One thing that a student did: what was wished, and what came of it.
struct Entry {
  std::string action;        ///< start, join, unplug, prove-dead, plug-in, measure, look, note, answer
  std::string subject = {};  ///< test point, look, words; of a start: the exercise
  std::string set_up = {};   ///< empty: as found
  std::string leads = {};    ///< "off", "in", or empty where the test point has none to choose
  std::string range = {};    ///< "auto", or the range's name: "6 kohm"
  bool live_agreed = false;

  std::string shown = {};                 ///< "294.0 ohm", "OL", "yes", "no"
  double minutes = 0.0;                   ///< that it took
  std::vector<std::string> hazards = {};  ///< ids, see practice.hpp

  // Of an answer; students also of a start, and of a join: who came to it later.
  std::vector<std::string> named = {};     ///< "PART", or "PART.FAULT" by their ids; empty: nothing
  std::vector<std::size_t> because = {};   ///< numbers of entries of this record
  double confidence = 0.0;                 ///< that the answer is right [0…1]
  std::vector<std::string> students = {};  ///< "Name: role"; of a start, too
  std::string file = {};                   ///< of a start: SHA-256 of the exercise's file
  std::string session = {};                ///< of a start: drawn at random, so that no two beginnings are alike
  std::string begun = {};                  ///< of a start: when, "2026-03-01T09:30:00Z"

  friend bool operator==(const Entry&, const Entry&) = default;
};

/// What was done, in order. The first entry is the start; an entry's number is its place, the start being 0.
struct Record {
  std::vector<Entry> entries;
  std::vector<std::string> hashes;       ///< by entry: its link, which stands for all that was done until then
  std::optional<std::size_t> broken_at;  ///< the first entry whose link does not hold: the record was edited there
};

/// Throws InputError for what a student typed (subject, names) that `read_record` would not read back: more than 4096
/// bytes in one text, characters that no text holds.
void refuse_what_no_record_holds(const Entry& entry);

/// The line that is appended for an entry after a record's text so far. Each line carries the SHA-256 of the line
/// before it and of itself, so that whoever edits one line breaks the chain. A chain that is cut short is whole, and
/// whoever writes a program can forge one: see `check_word`.
std::string record_line(const Entry& entry, std::string_view text_so_far);

/// What a student reads out at a stop and at the answer, and the instructor writes down: "3f2a-91c0", the beginning of
/// an entry's link. The record that is handed in must come to the same word; one that was cut short and worked anew, or
/// begun a second time, does not.
std::string check_word(std::string_view hash);

/// The link of the last line of a record's text; empty for a text without one.
std::string last_link(std::string_view text);

/// Bytes of the text without the beginning of an entry that a crash left at its end.
std::size_t whole_lines(std::string_view text);

/// Reads a record. A broken chain is no error, it is noted. Control characters of its texts (a word processor pastes
/// some) are made visible, so that they move no terminal. Throws DocumentError for what is no record.
Record read_record(std::string_view text, const std::string& file);

}  // namespace ohmwright::course
