#include "store/tally.h"

#include <fcntl.h>
#include <fmt/core.h>
#include <unistd.h>

#include <charconv>

#include "base/disk.h"

namespace shimwright::store {

Tally::Tally(const std::string& file) : file_(::open(file.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC, 0600)) {}

std::int64_t Tally::in(const std::string& file) {
  const std::string text = file_text(file).value_or("");
  std::int64_t first{}, second{};
  const char* const end = text.data() + text.size();
  const auto [middle, fault] = std::from_chars(text.data(), end, first);
  if (fault != std::errc() || middle == end) return 0;
  // twice the same, or it was half written
  const auto last = std::from_chars(middle + 1, end, second);
  return last.ec == std::errc() && first == second ? first : 0;
}

void Tally::write(std::int64_t n_changes) {
  if (!file_.is_open()) return;
  const std::string text = fmt::format("{} {}\n", n_changes, n_changes);
  if (::pwrite(file_.value(), text.data(), text.size(), 0) != static_cast<ssize_t>(text.size()))
      [[maybe_unused]]
    const int emptied = ::ftruncate(file_.value(), 0);
}

}  // namespace shimwright::store
