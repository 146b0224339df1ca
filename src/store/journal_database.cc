#include "store/journal_database.h"

#include <SQLiteCpp/Exception.h>
#include <fmt/core.h>
#include <sqlite3.h>

#include <filesystem>
#include <system_error>

#include "base/disk.h"

namespace shimwright::store {
namespace {

namespace fs = std::filesystem;

constexpr int kBusyTimeout_ms = 2000;

/// A journal up to this size is checked whole when it is opened; a larger one would keep the page waiting.
constexpr std::uintmax_t kCheckedSize = 32u << 20;

constexpr const char* kMemoryNotice = "{} What you type is lost when this workbench ends: save your jobs.";

bool is_damage(const SQLite::Exception& exception) {
  const int code = exception.getErrorCode() & 0xff;
  return code == SQLITE_CORRUPT || code == SQLITE_NOTADB;
}

/// Moves the database and what SQLite keeps beside it to the first free FILE.damaged-N; its name, or "".
std::string moved_aside(const std::string& file) {
  std::error_code code;
  for (int n = 1; n < 1000; ++n) {
    const std::string aside = fmt::format("{}.damaged-{}", file, n);
    if (fs::exists(aside, code)) continue;
    fs::rename(file, aside, code);
    if (code) return {};
    for (const char* beside : {"-wal", "-shm"}) fs::rename(file + beside, aside + beside, code);
    return aside;
  }
  return {};
}

int version_of(SQLite::Database& db) {
  return db.execAndGet("PRAGMA user_version").getInt();
}

/// Makes a database that was just opened ready to be written; throws SQLite::Exception.
void prepare_to_write(SQLite::Database& db, const std::string& file) {
  db.exec("PRAGMA journal_mode = WAL");
  db.exec("PRAGMA synchronous = FULL");  // a commit is on the disk before it is acknowledged
  db.exec("PRAGMA foreign_keys = ON");
  std::error_code code;
  if (fs::file_size(file, code) <= kCheckedSize && !code) {
    const std::string verdict = db.execAndGet("PRAGMA quick_check(1)").getString();
    if (verdict != "ok") throw SQLite::Exception(verdict, SQLITE_CORRUPT);
  }
  migrate(db);
}

OpenedDatabase open_to_read(const std::string& file) {
  OpenedDatabase opened;
  opened.file = file;
  opened.read_only = true;
  opened.other_address = LockFile::text_of(file + ".lock");
  const std::string where =
      opened.other_address.empty() ? std::string() : fmt::format(" at {}", opened.other_address);
  try {
    opened.db = std::make_unique<SQLite::Database>(file, SQLite::OPEN_READONLY, kBusyTimeout_ms);
    if (version_of(*opened.db) != schema_version()) throw SQLite::Exception("not a journal of this program");
  } catch (const SQLite::Exception& exception) {
    return memory_database(
        fmt::format("Another workbench{} uses the journal {}, and the journal cannot be read ({}). Start "
                    "this one with another journal: --journal FILE.",
                    where, file, exception.what()));
  }
  opened.notice = fmt::format(
      "Another workbench{} uses the journal {}: in this one you can only read. Close the other workbench, or "
      "start this one with another journal: --journal FILE.",
      where, file);
  return opened;
}

/// The journal of this program's version beside one of a newer program: "journal.v1.db".
std::string name_beside(const std::string& file) {
  const fs::path path(file);
  return (path.parent_path() /
          fmt::format("{}.v{}{}", path.stem().string(), schema_version(), path.extension().string()))
      .string();
}

OpenedDatabase open_locked(const std::string& file, LockFile lock, const std::string& notice) {
  OpenedDatabase opened;
  opened.lock = std::move(lock);
  opened.file = file;
  opened.notice = notice;
  opened.db =
      std::make_unique<SQLite::Database>(file, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, kBusyTimeout_ms);
  if (version_of(*opened.db) > schema_version()) {
    opened.db.reset();
    const std::string beside = name_beside(file);
    auto other = LockFile::take(beside + ".lock");
    if (!other) return open_to_read(beside);
    return open_locked(
        beside, std::move(*other),
        fmt::format("A newer Shimwright wrote the journal {}. This one does not change it and uses {}.", file,
                    beside));
  }
  prepare_to_write(*opened.db, file);
  return opened;
}

}  // namespace

OpenedDatabase memory_database(const std::string& notice) {
  OpenedDatabase opened;
  opened.notice = notice;
  opened.db = std::make_unique<SQLite::Database>(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  opened.db->exec("PRAGMA foreign_keys = ON");
  migrate(*opened.db);
  return opened;
}

OpenedDatabase open_database(const std::string& file) {
  const auto in_memory = [&](const std::string& why) {
    return memory_database(fmt::format(kMemoryNotice, fmt::format("The journal {} {}.", file, why)));
  };
  std::error_code code;
  if (!make_folder(fs::path(file).parent_path().string()))
    return in_memory("is in a folder that cannot be created");
  if (fs::is_directory(file, code)) return in_memory("is a folder");
  auto lock = LockFile::take(file + ".lock");
  if (!lock) {
    if (fs::exists(file, code)) return open_to_read(file);
    return in_memory("cannot be created");
  }
  try {
    return open_locked(file, std::move(*lock), "");
  } catch (const SQLite::Exception& exception) {
    if (!is_damage(exception)) return in_memory(fmt::format("cannot be used ({})", exception.what()));
  }

  // damaged: kept aside for a repair, never overwritten
  const std::string aside = moved_aside(file);
  if (aside.empty()) return in_memory("is damaged and cannot be renamed");
  lock = LockFile::take(file + ".lock");
  if (!lock) return in_memory("cannot be created");
  try {
    return open_locked(
        file, std::move(*lock),
        fmt::format("The journal {} was damaged. It is kept as {}, and a new one was started: you can undo "
                    "only what you do from now on. Your job files are not changed.",
                    file, aside));
  } catch (const SQLite::Exception& exception) {
    return in_memory(fmt::format("cannot be used ({})", exception.what()));
  }
}

}  // namespace shimwright::store
