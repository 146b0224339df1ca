#pragma once
#include <SQLiteCpp/Database.h>

#include <memory>
#include <optional>
#include <string>

#include "store/journal.h"
#include "store/lock_file.h"
#include "store/statements.h"

namespace shimwright::store {

/// A journal's database as it was opened.
struct OpenedDatabase {
  std::optional<LockFile> lock;  // goes last
  std::unique_ptr<SQLite::Database> db;
  std::unique_ptr<Statements> statements;  // of `db`
  std::string file;                        // empty in memory
  std::string notice;
  std::string other_address;  // of the workbench that holds it
  bool read_only = false;
};

/// See Journal::open.
OpenedDatabase open_database(const std::string& file);
OpenedDatabase memory_database(const std::string& notice);

struct Journal::Database : OpenedDatabase {
  explicit Database(OpenedDatabase opened) : OpenedDatabase(std::move(opened)) {
    statements = std::make_unique<Statements>(*db);
  }
};

}  // namespace shimwright::store
