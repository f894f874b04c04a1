#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

#include <boost/container/static_vector.hpp>

#include <ohmwright/uncertainty/estimate.hpp>

namespace ohmwright {

/// What makes two errors one: the kind of the error, what it is of, and the two numbers. Views into what was read.
struct SameError {
  std::string_view id;
  std::string_view of;
  std::string_view meter;
  double value = 0.0;
  double half_width = 0.0;

  auto key() const { return std::tie(id, of, meter, value, half_width); }
  friend bool operator<(const SameError& a, const SameError& b) { return a.key() < b.key(); }
};

/// The error sources of an evidence while it is made: which errors of its readings are one. Writes over what the list
/// held before, so that its memory serves again.
class SourceList {
 public:
  /// `readings`: how many there are, for the refusal of more errors than can be numbered.
  SourceList(std::vector<ErrorSource>& sources, std::size_t readings) : sources_(sources), readings_(readings) {}

  /// A new source. Throws InputError where it cannot be numbered.
  SourceIndex add(std::string_view id, std::string_view of, Shape shape);
  /// The source of that name, made at its first use.
  SourceIndex shared(std::string_view id, std::string_view of, Shape shape);
  /// The source for a value with its half-width: that of an earlier one of the same two numbers, else a new one. A
  /// handful is looked through, which takes no memory; more are put in order.
  SourceIndex of_same(const SameError& same, const std::string& label);
  ErrorSource& operator[](SourceIndex index) { return sources_[index]; }
  /// Gives back what the list holds beyond the sources that were added.
  void finish() { sources_.resize(count_); }

 private:
  std::vector<ErrorSource>& sources_;
  std::size_t readings_;
  std::size_t count_ = 0;
  boost::container::static_vector<SourceIndex, 8> first_shared_;
  std::map<std::pair<std::string, std::string>, SourceIndex> shared_;
  boost::container::static_vector<std::pair<SameError, SourceIndex>, 8> first_of_same_;
  std::map<SameError, SourceIndex> of_same_;
};

}  // namespace ohmwright
