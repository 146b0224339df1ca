#pragma once
#include <SQLiteCpp/Database.h>

#include <memory>
#include <optional>
#include <string>

#include "store/journal.h"
#include "store/lock_file.h"
#include "store/statements.h"
#include "store/tally.h"

namespace shimwright::store {

/// A journal's database as it was opened.
struct OpenedDatabase {
  std::optional<LockFile> lock;  // goes last
  std::unique_ptr<SQLite::Database> db;
  std::unique_ptr<Statements> statements;  // of `db`
  std::string file;                        // empty in memory
  std::string notice;
  std::string address;  // what the lock file says: of the workbench that holds it, or held it before
  Journal::Standing standing = Journal::Standing::Kept;
  Tally tally;
  std::string announced;  // where this workbench is to be found
  std::string log_id;     // of its log, as it was after the last change
  std::string file_id;    // tells whether `file` is still the one that is open
};

/// What tells a file from another one of the same name; empty: there is none.
std::string id_of_file(const std::string& file);

/// See Journal::open.
OpenedDatabase open_database(const std::string& file);
OpenedDatabase memory_database(const std::string& notice);

struct Journal::Database : OpenedDatabase {
  explicit Database(OpenedDatabase opened) : OpenedDatabase(std::move(opened)) {
    statements = std::make_unique<Statements>(*db);
  }
};

/// The version of the tables that this program writes, as PRAGMA user_version holds it.
int schema_version();

/// Brings a database of version 0 (empty) or of any earlier version to schema_version(), each step in one
/// transaction. Throws SQLite::Exception; the database is then of the version it last reached.
/// Tested: journal_test.cc, on the databases kept in test/durability/stores
void migrate(SQLite::Database& database);

}  // namespace shimwright::store
