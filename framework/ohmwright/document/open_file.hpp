#pragma once

#include <unistd.h>
#include <utility>

namespace ohmwright {

/// An open file of the system, closed when it goes.
class OpenFile {
 public:
  explicit OpenFile(int number) : number_(number) {}
  ~OpenFile() { close(); }
  OpenFile(OpenFile&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
  OpenFile& operator=(OpenFile&& other) noexcept {
    if (this != &other) {
      close();
      number_ = std::exchange(other.number_, -1);
    }
    return *this;
  }
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;

  int number() const { return number_; }
  bool is_open() const { return number_ >= 0; }

  /// Closes now; false when the system says that something written before was lost.
  bool close() { return number_ < 0 || ::close(std::exchange(number_, -1)) == 0; }

 private:
  int number_;
};

}  // namespace ohmwright
