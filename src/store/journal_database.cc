#include "store/journal_database.h"

#include <SQLiteCpp/Exception.h>
#include <fmt/core.h>
#include <sqlite3.h>
#include <sys/stat.h>

#include <filesystem>
#include <system_error>

#include "base/disk.h"

namespace shimwright::store {
namespace {

namespace fs = std::filesystem;

constexpr int kBusyTimeout_ms = 2000;

/// A journal up to this size is checked whole when it is opened; a larger one would keep the page waiting.
constexpr std::uintmax_t kCheckedSize = 32u << 20;

constexpr const char* kTallyEnding = ".tally";

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
    for (const char* beside : {"-wal", "-shm", kTallyEnding}) fs::rename(file + beside, aside + beside, code);
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

/// Looks only: because another workbench writes, or because the lock that would keep it out cannot be had.
OpenedDatabase open_to_read(const std::string& file, LockFile::Fault why) {
  const bool is_held = why == LockFile::Fault::Held;
  OpenedDatabase opened;
  opened.file = file;
  opened.standing = is_held ? Journal::Standing::OtherWrites : Journal::Standing::CannotWrite;
  opened.address = is_held ? LockFile::text_of(file + ".lock") : "";
  const std::string where = opened.address.empty() ? std::string() : fmt::format(" at {}", opened.address);
  const std::string who =
      is_held ? fmt::format("Another workbench{} uses the journal {}", where, file)
              : fmt::format("The file {}.lock, which keeps others from the journal, cannot be used", file);
  try {
    opened.db = std::make_unique<SQLite::Database>(file, SQLite::OPEN_READONLY, kBusyTimeout_ms);
    if (version_of(*opened.db) != schema_version()) throw SQLite::Exception("not a journal of this program");
  } catch (const SQLite::Exception& exception) {
    return memory_database(
        fmt::format("{}, and the journal cannot be read ({}). Start this one with another journal: "
                    "--journal FILE.",
                    who, exception.what()));
  }
  opened.notice = fmt::format(
      "{}: in this one you can only read. {}, or start this one with another journal: "
      "--journal FILE.",
      who, is_held ? "Close the other workbench" : "Remove that file or make it yours");
  return opened;
}

/// The journal of this program's version beside one of a newer program: "journal.v1.db".
std::string name_beside(const std::string& file) {
  const fs::path path(file);
  return (path.parent_path() /
          fmt::format("{}.v{}{}", path.stem().string(), schema_version(), path.extension().string()))
      .string();
}

OpenedDatabase open_locked(const std::string& file, LockFile lock, Journal::Standing standing,
                           const std::string& notice) {
  OpenedDatabase opened;
  opened.lock = std::move(lock);
  opened.file = file;
  opened.notice = notice;
  opened.standing = standing;
  opened.address = LockFile::text_of(file + ".lock");
  opened.db =
      std::make_unique<SQLite::Database>(file, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, kBusyTimeout_ms);
  if (version_of(*opened.db) > schema_version()) {
    opened.db.reset();
    const std::string beside = name_beside(file);
    auto other = LockFile::take(beside + ".lock");
    if (!other) return open_to_read(beside, other.error());
    return open_locked(
        beside, std::move(*other), Journal::Standing::Beside,
        fmt::format("A newer Shimwright wrote the journal {}. This one does not change it and uses {}.", file,
                    beside));
  }
  prepare_to_write(*opened.db, file);
  opened.file_id = id_of_file(file);
  const std::int64_t n_kept = opened.db->execAndGet("SELECT coalesce(sum(serial), 0) FROM job").getInt64();
  const std::int64_t n_acknowledged = Tally::in(file + kTallyEnding);
  opened.tally = Tally(file + kTallyEnding);
  if (n_kept < n_acknowledged) {
    opened.standing = Journal::Standing::Shortened;
    opened.notice = fmt::format(
        "The journal {} has lost its end: of {} changes it holds {}. Compare your jobs with what you "
        "remember, "
        "and save them. A copy of the journal, if you have one, may hold the rest.",
        file, n_acknowledged, n_kept);
    opened.tally.write(n_kept);  // told once
  }
  return opened;
}

}  // namespace

std::string id_of_file(const std::string& file) {
  struct stat facts{};
  if (::stat(file.c_str(), &facts) != 0) return {};
  return fmt::format("{} {}", facts.st_dev, facts.st_ino);
}

OpenedDatabase memory_database(const std::string& notice) {
  OpenedDatabase opened;
  opened.notice = notice;
  opened.standing = Journal::Standing::InMemory;
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
    if (fs::exists(file, code)) return open_to_read(file, lock.error());
    return in_memory("cannot be created");
  }
  try {
    return open_locked(file, std::move(*lock), Journal::Standing::Kept, "");
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
        file, std::move(*lock), Journal::Standing::Renewed,
        fmt::format("The journal {} was damaged. It is kept as {}, and a new one was started: you can undo "
                    "only what you do from now on. Your job files are not changed.",
                    file, aside));
  } catch (const SQLite::Exception& exception) {
    return in_memory(fmt::format("cannot be used ({})", exception.what()));
  }
}

}  // namespace shimwright::store
