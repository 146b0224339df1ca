#pragma once
#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include <map>
#include <string_view>

namespace shimwright::store {

/// The statements of a database, each prepared once: to understand one takes longer than to run it.
/// Tested: journal_test.cc
class Statements {
  struct Prepared {
    SQLite::Statement statement;
    bool lent = false;
  };

 public:
  explicit Statements(SQLite::Database& db) : db_(db) {}

  /// A statement to bind (all of it: values of the time before stay) and to step through. At the end of this
  /// it holds no lock any more.
  class Lent {
   public:
    ~Lent() {
      prepared_.statement.tryReset();  // returns the code of a failed step again, which was thrown already
      prepared_.lent = false;
    }
    Lent(const Lent&) = delete;
    Lent& operator=(const Lent&) = delete;
    SQLite::Statement* operator->() const { return &prepared_.statement; }

   private:
    friend class Statements;
    explicit Lent(Prepared& prepared) : prepared_(prepared) { prepared_.lent = true; }
    Prepared& prepared_;
  };

  /// `sql` is a literal. Each statement is in use only once at a time.
  Lent lend(std::string_view sql);

  SQLite::Database& database() { return db_; }

 private:
  SQLite::Database& db_;
  std::map<std::string_view, Prepared> prepared_;
};

}  // namespace shimwright::store
