#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/document/document.hpp>

namespace ohmwright {

/// How far the parser has read. Lines count from 1.
struct Progress {
  std::size_t offset = 0;
  int line = 1;
  char last = '\0';

  /// The line of the character read last: a number is known to have ended only once the character after it was read.
  int line_of_last() const { return last == '\n' ? line - 1 : line; }
};

/// Takes the parser's events and builds the tree of values with their places. Returns false from an event to stop.
class TreeBuilder {
 public:
  TreeBuilder(const Progress& progress, const DocumentLimits& limits) : progress_(progress), limits_(limits) {}

  bool value(ValueNode::Value value);
  bool text(std::string text);
  bool key(const std::string& name);
  bool open(ValueNode::Value empty);
  bool close();
  /// Records that parsing cannot go on, at the place reached.
  bool stop(std::string why);

  /// Whether the text was read to its end: what is wrong with it then leaves a tree that can be checked further.
  bool tree_is_whole() const { return !stopped_; }
  ValueNode take_root() { return std::move(root_); }
  std::vector<Problem> take_problems() { return std::move(problems_); }

 private:
  struct Open {
    ValueNode::Value value;
    std::string pointer;
    int line = 0;
    std::string key;
    bool key_is_repeated = false;  ///< its value is read, for what may be wrong with it, and not kept
    std::unordered_map<std::string, int> lines_of_names;
  };

  std::string pointer_of_next() const;
  bool report(Problem problem);
  bool within_limits(const std::string& pointer);
  void add(ValueNode node);

  const Progress& progress_;
  const DocumentLimits& limits_;
  std::vector<Open> open_;
  ValueNode root_;
  std::vector<Problem> problems_;
  std::size_t values_ = 0;
  std::size_t pointer_bytes_ = 0;
  bool stopped_ = false;
};

}  // namespace ohmwright
