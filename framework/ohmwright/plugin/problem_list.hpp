#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

/// What is wrong with a descriptor, sentence by sentence, and the questions that are asked of all its lists.
class ProblemList {
 public:
  void say(std::string problem) { problems_.push_back(std::move(problem)); }
  std::vector<std::string> take() { return std::move(problems_); }

  /// The row has that text, not of blanks alone, and it can be shown: no control characters, nothing that hides or
  /// reverses text.
  void needs(std::string_view sort, std::string_view id, std::string_view what, std::string_view text);

  /// There is a row with that id.
  template <class Row>
  void refers(const std::string& from, const std::string& sort, const std::vector<Row>& rows, std::string_view id) {
    if (index_of(rows, id) == not_found)
      say(from + " names the " + sort + " " + ohmwright::quoted(id) + ", which is not there");
  }

  /// Ids are well formed and stand once.
  void check_plain_ids(const std::string& sort, const std::vector<std::string_view>& ids);
  template <class Row>
  void check_ids(const std::string& sort, const std::vector<Row>& rows) {
    std::vector<std::string_view> ids;
    ids.reserve(rows.size());
    for (const Row& row : rows) ids.push_back(row.id);
    check_plain_ids(sort, ids);
  }

  /// Sentences have ids, words, and fields that can be filled: {name}.
  template <class Row>
  void check_texts(const std::string& sort, const std::vector<Row>& rows) {
    check_ids(sort, rows);
    for (const Row& row : rows) check_text(sort, row.id, row.english);
  }
  void check_text(const std::string& sort, std::string_view id, std::string_view english);

 private:
  std::vector<std::string> problems_;
};

/// a-z, 0-9, - and _, at least one of them.
bool is_descriptor_id(std::string_view id);

}  // namespace ohmwright
