#pragma once
#include <algorithm>
#include <cstddef>
#include <list>
#include <optional>
#include <string>
#include <utility>

namespace shimwright::server {

/// The `most` values that were used last, by name: looking one up counts as use. Not safe from several
/// threads.
template <typename Value>
class Recent {
 public:
  explicit Recent(std::size_t most) : most_(most) {}

  std::optional<Value> find(const std::string& name) {
    const auto found = std::ranges::find(kept_, name, &Named::first);
    if (found == kept_.end()) return std::nullopt;
    kept_.splice(kept_.begin(), kept_, found);
    return found->second;
  }
  /// One that is here already stays as it is.
  void add(const std::string& name, Value value) {
    if (find(name)) return;
    kept_.emplace_front(name, std::move(value));
    if (kept_.size() > most_) kept_.pop_back();
  }

 private:
  using Named = std::pair<std::string, Value>;
  std::size_t most_;
  std::list<Named> kept_;  // the newest first
};

}  // namespace shimwright::server
