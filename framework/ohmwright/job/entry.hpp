#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include <ohmwright/job/book_words.hpp>

namespace ohmwright::job {

/// Bytes of a content that a book takes, and a line of an export holds: what was written down is always read again.
inline constexpr std::size_t longest_content = 1'500'000;

/// The field of a content by which entries that were written down together are known as one answer: the id of the first
/// of them. It stands in the content, and not beside it, so that earlier versions take such entries in.
inline constexpr std::string_view act_field = "act";

/// What is to be written down.
struct NewEntry {
  EntryForm form = EntryForm::note;
  std::string content;        ///< a JSON object (`ContentWriter`) of at most `longest_content` bytes
  std::string happened = {};  ///< when it happened (`time_text`); empty: now
  std::string corrects = {};  ///< id of the entry that this one stands in for
};

/// One thing that was written down, never to be changed.
struct Entry {
  std::string id;
  std::string form;      ///< as the book says it: a later version may know more forms
  std::string recorded;  ///< 2026-03-01T14:30:00.000Z
  std::string happened;  ///< empty: when it was recorded
  std::string who;
  std::string tool;
  std::string corrects;  ///< empty: it stands for itself
  std::string content;

  /// When what it says was so.
  const std::string& when() const { return happened.empty() ? recorded : happened; }
  bool is(EntryForm one) const { return form == name_of(one); }
  friend bool operator==(const Entry&, const Entry&) = default;
};

}  // namespace ohmwright::job
