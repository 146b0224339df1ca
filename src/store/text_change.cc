#include "store/text_change.h"

#include <algorithm>

#include "base/check.h"

namespace shimwright::store {

TextChange change_between(std::string_view before, std::string_view after) {
  const std::size_t shorter = std::min(before.size(), after.size());
  TextChange change;
  while (change.head < shorter && before[change.head] == after[change.head]) ++change.head;
  while (change.tail < shorter - change.head &&
         before[before.size() - 1 - change.tail] == after[after.size() - 1 - change.tail])
    ++change.tail;
  change.middle = after.substr(change.head, after.size() - change.head - change.tail);
  return change;
}

std::string changed(std::string_view before, const TextChange& change) {
  SW_CHECK(change.head <= before.size() && change.tail <= before.size() - change.head, change.head,
           change.tail, before.size());
  std::string after(before.substr(0, change.head));
  after += change.middle;
  after += before.substr(before.size() - change.tail);
  return after;
}

}  // namespace shimwright::store
