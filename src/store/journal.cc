#include "store/journal.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>
#include <SQLiteCpp/Transaction.h>
#include <fmt/core.h>
#include <sqlite3.h>

#include <filesystem>
#include <system_error>
#include <utility>

#include "store/journal_database.h"
#include "store/text_change.h"

namespace shimwright::store {
namespace {

/// Revisions that hold only a change, one behind the other; then one holds the whole text again.
constexpr int kLongestChain = 64;

Fault fault_of(const SQLite::Exception& exception, const std::string& file) {
  const std::string why = exception.what();
  switch (exception.getErrorCode() & 0xff) {
    case SQLITE_READONLY:
      return {Fault::Kind::ReadOnly, fmt::format("the journal {} can only be read", file),
              "Close the other workbench, or use another journal with --journal FILE."};
    case SQLITE_FULL:
      return {Fault::Kind::Full, fmt::format("the disk has no room left for the journal {}", file),
              "Make room on that disk, then try again. What you typed before is kept."};
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return {Fault::Kind::Damaged, fmt::format("the journal {} is damaged ({})", file, why),
              "Save your jobs, then start the workbench again. It keeps a copy of the damaged file."};
    default:
      return {Fault::Kind::Disk, fmt::format("the journal {} could not be used ({})", file, why),
              "Check that the disk is there and that you may write to it. Then try again."};
  }
}

/// A row of the job table, with its key.
struct JobRow {
  std::int64_t id;
  std::int64_t position;
  std::int64_t serial;
  std::string disk_hash;
};

std::optional<JobRow> find_job(Statements& db, const std::string& job) {
  const auto query = db.lend("SELECT id, position, serial, disk_hash FROM job WHERE path = ?");
  query->bind(1, job);
  if (!query->executeStep()) return std::nullopt;
  return JobRow{query->getColumn(0).getInt64(), query->getColumn(1).getInt64(),
                query->getColumn(2).getInt64(), query->getColumn(3).getString()};
}

/// All of a revision but its text.
struct RevisionRow {
  std::int64_t parent;
  int depth;  // changes since the last revision that is kept whole
  TextChange change;
  std::string note;
  std::string client;
  std::int64_t time;
};

std::optional<RevisionRow> find_revision(Statements& db, std::int64_t job, std::int64_t number) {
  const auto query = db.lend(
      "SELECT parent, depth, head, tail, text, note, client, time FROM revision "
      "WHERE job = ? AND number = ?");
  query->bind(1, job);
  query->bind(2, number);
  if (!query->executeStep()) return std::nullopt;
  return RevisionRow{
      query->getColumn(0).getInt64(),
      query->getColumn(1).getInt(),
      {static_cast<std::size_t>(query->getColumn(2).getInt64()),
       static_cast<std::size_t>(query->getColumn(3).getInt64()), query->getColumn(4).getString()},
      query->getColumn(5).getString(),
      query->getColumn(6).getString(),
      query->getColumn(7).getInt64()};
}

/// The whole text of a revision: back to one that holds it, and forward again.
std::string text_of(Statements& db, std::int64_t job, std::int64_t number) {
  std::vector<TextChange> changes;
  while (true) {
    auto row = find_revision(db, job, number);
    if (!row || static_cast<int>(changes.size()) > kLongestChain)
      throw SQLite::Exception("a revision is missing", SQLITE_CORRUPT);
    changes.push_back(std::move(row->change));
    if (row->depth == 0) break;
    number = row->parent;
  }
  std::string text;
  for (auto change = changes.rbegin(); change != changes.rend(); ++change) {
    if (change->head > text.size() || change->tail > text.size() - change->head)
      throw SQLite::Exception("a revision does not fit its parent", SQLITE_CORRUPT);
    text = changed(text, *change);
  }
  return text;
}

std::vector<Draft> drafts_of(Statements& db, std::int64_t job, std::int64_t number) {
  const auto query =
      db.lend("SELECT path, typed, is_insert FROM draft WHERE job = ? AND revision = ? ORDER BY place");
  query->bind(1, job);
  query->bind(2, number);
  std::vector<Draft> drafts;
  while (query->executeStep()) {
    drafts.push_back({query->getColumn(0).getString(), query->getColumn(1).getString(),
                      query->getColumn(2).getInt() != 0});
  }
  return drafts;
}

Track track_of(Statements& db, const JobRow& job) {
  Track track{job.position, job.serial, job.disk_hash, 0, 0, {}, {}};
  if (const auto present = find_revision(db, job.id, job.position); present && present->parent > 0) {
    track.undo_to = present->parent;
    track.undo_note = present->note;
  }
  const auto query =
      db.lend("SELECT number, note FROM revision WHERE job = ? AND parent = ? ORDER BY number DESC LIMIT 1");
  query->bind(1, job.id);
  query->bind(2, job.position);
  if (query->executeStep()) {
    track.redo_to = query->getColumn(0).getInt64();
    track.redo_note = query->getColumn(1).getString();
  }
  return track;
}

void insert_revision(Statements& db, const JobRow& job, std::int64_t number, const Entry& entry) {
  int depth = 0;
  TextChange change{0, 0, entry.text};
  if (job.position > 0) {
    const auto parent = find_revision(db, job.id, job.position);
    if (!parent) throw SQLite::Exception("the present revision is missing", SQLITE_CORRUPT);
    if (parent->depth + 1 < kLongestChain) {
      change = change_between(text_of(db, job.id, job.position), entry.text);
      depth = parent->depth + 1;
    }
  }
  const auto insert = db.lend("INSERT INTO revision VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  insert->bind(1, job.id);
  insert->bind(2, number);
  insert->bind(3, job.position);
  insert->bind(4, depth);
  insert->bind(5, static_cast<std::int64_t>(change.head));
  insert->bind(6, static_cast<std::int64_t>(change.tail));
  insert->bind(7, change.middle.data(), static_cast<int>(change.middle.size()));
  insert->bind(8, entry.note);
  insert->bind(9, entry.client);
  insert->bind(10, entry.time);
  insert->exec();

  for (std::size_t place = 0; place < entry.drafts.size(); ++place) {
    const auto draft = db.lend("INSERT INTO draft VALUES (?, ?, ?, ?, ?, ?)");
    draft->bind(1, job.id);
    draft->bind(2, number);
    draft->bind(3, static_cast<std::int64_t>(place));
    draft->bind(4, entry.drafts[place].path);
    draft->bind(5, entry.drafts[place].typed);
    draft->bind(6, static_cast<int>(entry.drafts[place].insert));
    draft->exec();
  }
}

/// Writes the row of the job table as it shall be from now on.
void put_job(Statements& db, const JobRow& job) {
  const auto update = db.lend("UPDATE job SET position = ?, serial = ?, disk_hash = ? WHERE id = ?");
  update->bind(1, job.position);
  update->bind(2, job.serial);
  update->bind(3, job.disk_hash);
  update->bind(4, job.id);
  update->exec();
}

/// Each change of a job makes its serial grow by one.
std::int64_t n_changes_of(Statements& db) {
  const auto sum = db.lend("SELECT coalesce(sum(serial), 0) FROM job");
  sum->executeStep();
  return sum->getColumn(0).getInt64();
}

JobRow job_or_new(Statements& db, const std::string& path) {
  if (auto row = find_job(db, path)) return *row;
  const auto insert = db.lend("INSERT INTO job (path, position, serial, disk_hash) VALUES (?, 0, 0, '')");
  insert->bind(1, path);
  insert->exec();
  return {db.database().getLastInsertRowid(), 0, 0, {}};
}

}  // namespace

Journal::Journal(std::unique_ptr<Database> database) : database_(std::move(database)) {}
Journal::~Journal() = default;
Journal::Journal(Journal&&) noexcept = default;
Journal& Journal::operator=(Journal&&) noexcept = default;

Journal Journal::open(const std::string& file) {
  return Journal(std::make_unique<Database>(open_database(file)));
}

Journal Journal::in_memory() {
  return Journal(std::make_unique<Database>(memory_database("")));
}

const std::string& Journal::notice() const {
  return database_->notice;
}
Journal::Standing Journal::standing() const {
  return database_->standing;
}
bool Journal::read_only() const {
  return standing() == Standing::OtherWrites || standing() == Standing::CannotWrite;
}
bool Journal::is_in_memory() const {
  return database_->file.empty();
}
const std::string& Journal::file() const {
  return database_->file;
}
const std::string& Journal::other_address() const {
  static const std::string nobody;
  return standing() == Standing::OtherWrites ? database_->address : nobody;
}
const std::string& Journal::earlier_address() const {
  static const std::string nobody;
  return read_only() ? nobody : database_->address;
}

void Journal::announce_address(const std::string& address) {
  if (!database_->lock) return;
  database_->lock->write(address);
  database_->announced = address;
}

bool Journal::try_to_write() {
  if (!read_only()) return false;
  if (!LockFile::take(database_->file + ".lock")) return false;
  OpenedDatabase opened = open_database(database_->file);
  if (!opened.lock) return false;  // somebody was quicker, or it can be read and no more
  database_ = std::make_unique<Database>(std::move(opened));
  return true;
}

bool Journal::renew_if_displaced() {
  if (read_only() || is_in_memory() || id_of_file(file()) == database_->file_id) return false;
  const std::string path = file(), address = database_->announced, log_id = database_->log_id;
  database_.reset();
  // the log of the one that is gone belongs to none that comes
  std::error_code code;
  if (!log_id.empty() && id_of_file(path + "-wal") == log_id)
    for (const char* beside : {"-wal", "-shm"}) std::filesystem::remove(path + beside, code);
  std::filesystem::remove(path + ".tally", code);
  database_ = std::make_unique<Database>(open_database(path));
  if (standing() == Standing::Kept) {
    database_->standing = Standing::Renewed;
    database_->notice = fmt::format(
        "The journal {} was removed or replaced while it was in use. What is open was written into the one "
        "that "
        "is there now: you can undo only what you do from now on. Your job files are not changed.",
        path);
  }
  announce_address(address);
  return true;
}

/// Runs `work` on the database; an exception of SQLite becomes a Fault, and its unfinished changes are
/// undone.
template <typename Work>
auto answered(OpenedDatabase& opened, Work&& work) -> Answer<decltype(work(*opened.statements))> {
  try {
    return work(*opened.statements);
  } catch (const SQLite::Exception& exception) {
    return failure(fault_of(exception, opened.file));
  }
}

/// The same inside one transaction that takes the right to write at once: one that first reads and then
/// requests for it could be refused.
template <typename Work>
auto written(OpenedDatabase& opened, Work&& work) {
  std::int64_t n_changes{};
  auto value = answered(opened, [&](Statements& db) {
    SQLite::Transaction transaction(db.database(), SQLite::TransactionBehavior::IMMEDIATE);
    auto done = work(db);
    n_changes = n_changes_of(db);
    transaction.commit();
    return done;
  });
  if (!value || opened.file.empty()) return value;
  opened.tally.write(n_changes);
  opened.log_id = id_of_file(opened.file + "-wal");
  return value;
}

Fault not_there(const std::string& job) {
  return {Fault::Kind::NotThere, fmt::format("the journal has no entry for {}", job), "Open the job first."};
}

Answer<std::optional<Track>> Journal::track(const std::string& job) const {
  return answered(*database_, [&](Statements& db) -> std::optional<Track> {
    const auto row = find_job(db, job);
    if (!row) return std::nullopt;
    return track_of(db, *row);
  });
}

Answer<Revision> Journal::revision(const std::string& job, std::int64_t number) const {
  auto found = answered(*database_, [&](Statements& db) -> std::optional<Revision> {
    const auto row = find_job(db, job);
    if (!row) return std::nullopt;
    auto revision = find_revision(db, row->id, number);
    if (!revision) return std::nullopt;
    return Revision{number,
                    revision->parent,
                    text_of(db, row->id, number),
                    drafts_of(db, row->id, number),
                    std::move(revision->note),
                    std::move(revision->client),
                    revision->time};
  });
  if (!found) return failure(std::move(found.error()));
  if (!*found) return failure(not_there(fmt::format("revision {} of {}", number, job)));
  return std::move(**found);
}

Answer<bool> Journal::has_made(const std::string& client, const std::string& job) const {
  return answered(*database_, [&](Statements& db) {
    const auto query = db.lend(
        "SELECT 1 FROM revision JOIN job ON job.id = revision.job WHERE job.path = ? AND client = ? LIMIT 1");
    query->bind(1, job);
    query->bind(2, client);
    return query->executeStep();
  });
}

Answer<Track> Journal::append(const std::string& job, const Entry& entry) {
  return written(*database_, [&](Statements& db) {
    JobRow row = job_or_new(db, job);
    const auto highest = db.lend("SELECT coalesce(max(number), 0) FROM revision WHERE job = ?");
    highest->bind(1, row.id);
    highest->executeStep();
    const std::int64_t number = highest->getColumn(0).getInt64() + 1;
    insert_revision(db, row, number, entry);
    row.position = number;
    ++row.serial;
    if (entry.disk_hash) row.disk_hash = *entry.disk_hash;
    put_job(db, row);
    return track_of(db, row);
  });
}

namespace {

/// Moves a job along `where` of its track; it stays where that is 0.
Answer<Track> moved(OpenedDatabase& opened, const std::string& job, std::int64_t Track::* where) {
  auto track = written(opened, [&](Statements& db) -> std::optional<Track> {
    auto row = find_job(db, job);
    if (!row) return std::nullopt;
    const std::int64_t to = track_of(db, *row).*where;
    if (to > 0) {
      row->position = to;
      ++row->serial;
      put_job(db, *row);
    }
    return track_of(db, *row);
  });
  if (!track) return failure(std::move(track.error()));
  if (!*track) return failure(not_there(job));
  return std::move(**track);
}

}  // namespace

Answer<Track> Journal::undo(const std::string& job) {
  return moved(*database_, job, &Track::undo_to);
}

Answer<Track> Journal::redo(const std::string& job) {
  return moved(*database_, job, &Track::redo_to);
}

Answer<Track> Journal::set_disk_hash(const std::string& job, const std::string& hash) {
  auto track = written(*database_, [&](Statements& db) -> std::optional<Track> {
    auto row = find_job(db, job);
    if (!row) return std::nullopt;
    row->disk_hash = hash;
    ++row->serial;
    put_job(db, *row);
    return track_of(db, *row);
  });
  if (!track) return failure(std::move(track.error()));
  if (!*track) return failure(not_there(job));
  return std::move(**track);
}

}  // namespace shimwright::store
