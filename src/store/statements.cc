#include "store/statements.h"

#include <string>

#include "base/check.h"

namespace shimwright::store {

Statements::Lent Statements::lend(std::string_view sql) {
  auto found = prepared_.find(sql);
  if (found == prepared_.end())
    found = prepared_.emplace(sql, Prepared{SQLite::Statement(db_, std::string(sql))}).first;
  SW_CHECK(!found->second.lent, sql);
  return Lent(found->second);
}

}  // namespace shimwright::store
