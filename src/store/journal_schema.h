#pragma once

namespace SQLite {
class Database;
}

namespace shimwright::store {

/// The version of the tables that this program writes, as PRAGMA user_version holds it.
int schema_version();

/// Brings a database of version 0 (empty) or of any earlier version to schema_version(), each step in one
/// transaction. Throws SQLite::Exception; the database is then of the version it last reached.
/// Tested: journal_test.cc, on the databases kept in test/durability/stores
void migrate(SQLite::Database& database);

}  // namespace shimwright::store
