#pragma once

#include <cstddef>
#include <string_view>
#include <utility>
#include <vector>

namespace ohmwright::batch {

/// One reading of a line as text; what was not said is empty.
struct ReadingFields {
  std::string_view measurand;
  std::string_view value;
  std::string_view connection;
  std::string_view moisture;
  std::string_view supply;
  std::string_view meter;
  std::vector<std::pair<std::string_view, std::string_view>> conditions;  ///< name and quantity

  void clear() {
    measurand = value = connection = moisture = supply = meter = {};
    conditions.clear();
  }
};

/// The fields of one line as text, views into the line. Keeps its memory from line to line.
class LineFields {
 public:
  std::string_view id;
  std::string_view lot;
  std::string_view kind;
  std::string_view ratings;

  void clear() {
    id = lot = kind = ratings = {};
    count_ = 0;
  }
  ReadingFields& add_reading() {
    if (count_ == readings_.size()) readings_.emplace_back();
    readings_[count_].clear();
    return readings_[count_++];
  }
  std::size_t reading_count() const { return count_; }
  const ReadingFields& reading(std::size_t index) const { return readings_[index]; }

 private:
  std::vector<ReadingFields> readings_;
  std::size_t count_ = 0;
};

}  // namespace ohmwright::batch
