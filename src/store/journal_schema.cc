#include "store/journal_database.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Transaction.h>

#include <array>
#include <cstddef>
#include <string>

namespace shimwright::store {
namespace {

/// Step i leads from version i to i + 1. A step that has been released is never changed.
constexpr std::array kSteps = {
    R"sql(
CREATE TABLE job (
  id        INTEGER PRIMARY KEY,
  path      TEXT    NOT NULL UNIQUE,
  position  INTEGER NOT NULL,  -- number of the present revision
  serial    INTEGER NOT NULL,  -- grows with every change
  disk_hash TEXT    NOT NULL   -- of the file as last read or written; empty: there was none
) STRICT;

CREATE TABLE revision (
  job    INTEGER NOT NULL REFERENCES job (id),
  number INTEGER NOT NULL,  -- from 1 in each job
  parent INTEGER NOT NULL,  -- 0: the first
  depth  INTEGER NOT NULL,  -- revisions back to one that holds the whole text; 0: this one
  head   INTEGER NOT NULL,  -- bytes kept from the begin of the parent's text
  tail   INTEGER NOT NULL,  -- bytes kept from its end
  text   BLOB    NOT NULL,  -- what stands between
  note   TEXT    NOT NULL,
  client TEXT    NOT NULL,
  time   INTEGER NOT NULL,  -- ms since 1970
  PRIMARY KEY (job, number)
) STRICT;
CREATE INDEX revision_by_parent ON revision (job, parent, number);

CREATE TABLE draft (
  job       INTEGER NOT NULL,
  revision  INTEGER NOT NULL,
  place     INTEGER NOT NULL,  -- in the order of typing, from 0
  path      TEXT    NOT NULL,
  typed     TEXT    NOT NULL,
  is_insert INTEGER NOT NULL,
  PRIMARY KEY (job, revision, place),
  FOREIGN KEY (job, revision) REFERENCES revision (job, number)
) STRICT;
)sql"};

}  // namespace

int schema_version() {
  return static_cast<int>(kSteps.size());
}

void migrate(SQLite::Database& database) {
  int version = database.execAndGet("PRAGMA user_version").getInt();
  for (; version < schema_version(); ++version) {
    SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
    database.exec(kSteps[static_cast<std::size_t>(version)]);
    database.exec("PRAGMA user_version = " + std::to_string(version + 1));
    transaction.commit();
  }
}

}  // namespace shimwright::store
