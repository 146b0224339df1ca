#pragma once
#include <unistd.h>

#include <utility>

namespace shimwright {

/// What the system calls an open file, closed when this goes. A call that failed gives one that is not open.
class Descriptor {
 public:
  Descriptor() = default;
  explicit Descriptor(int value) : value_(value) {}
  ~Descriptor() {
    if (is_open()) ::close(value_);
  }
  Descriptor(Descriptor&& other) noexcept : value_(std::exchange(other.value_, kClosed)) {}
  Descriptor& operator=(Descriptor&& other) noexcept {
    std::swap(value_, other.value_);
    return *this;
  }

  bool is_open() const { return value_ > kClosed; }
  int value() const { return value_; }

 private:
  static constexpr int kClosed = -1;
  int value_ = kClosed;
};

}  // namespace shimwright
