#pragma once

#include <exception>
#include <string>
#include <vector>

#include <ohmwright/quantity/core_api.hpp>

namespace ohmwright {

/// What sort of trouble an error is. The command line maps it to an exit code.
enum class ErrorCategory {
  input,     ///< a file, an argument or a value was refused: exit 2
  plugin,    ///< a plugin was refused: exit 4
  internal,  ///< our own mistake: exit 70
};

/// Base of everything ohmwright throws. A part out of tolerance is never an error: that is a verdict.
///
/// The text says what was found, what is accepted and one way on.
// NOLINTNEXTLINE(cppcoreguidelines-special-member-functions): copied as usual, the destructor is only a key function
class OHMWRIGHT_CORE_API Error : public std::exception {
 public:
  Error(ErrorCategory category, std::string text);
  ~Error() override;  // out of line: the key function keeps one type_info for the host and every plugin

  const char* what() const noexcept override { return text_.c_str(); }
  ErrorCategory category() const { return category_; }

 private:
  std::string text_;
  ErrorCategory category_;
};

/// A value typed or read from a file that does not mean what was asked for.
// NOLINTNEXTLINE(cppcoreguidelines-special-member-functions): copied as usual, the destructor is only a key function
class OHMWRIGHT_CORE_API InputError : public Error {
 public:
  explicit InputError(std::string text);
  ~InputError() override;
};

/// One thing wrong in a file, with its place.
struct Problem {
  std::string pointer;  ///< JSON pointer (RFC 6901) of the node; empty for the whole document
  int line = 0;         ///< counted from 1; 0 when unknown
  std::string text;     ///< what was found and what is accepted
};

/// A document with one or more problems, all told at once: one line "FILE:LINE: POINTER: text" each.
// NOLINTNEXTLINE(cppcoreguidelines-special-member-functions): copied as usual, the destructor is only a key function
class OHMWRIGHT_CORE_API DocumentError : public Error {
 public:
  DocumentError(std::string file, std::vector<Problem> problems);
  ~DocumentError() override;

  const std::string& file() const { return file_; }
  const std::vector<Problem>& problems() const { return problems_; }

 private:
  std::string file_;
  std::vector<Problem> problems_;
};

}  // namespace ohmwright
