#pragma once
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"

namespace shimwright::store {

/// A value that was typed and could not be taken.
struct Draft {
  std::string path;     // of the key or element
  std::string typed;    // as typed
  bool insert = false;  // it would be a new element before the one at `path`

  bool operator==(const Draft&) const = default;
};

/// One state of a job that somebody made: what undo goes back to.
struct Revision {
  std::int64_t number = 0;  // from 1, in order of making; never used twice
  std::int64_t parent = 0;  // that it was made from; 0: the first
  std::string text;         // of the whole file
  std::vector<Draft> drafts;
  std::string note;       // what undo calls it, "swap a shim"
  std::string client;     // who made it
  std::int64_t time = 0;  // when, as the caller gave it [ms since 1970]
};

/// The present revision of a job.
struct Track {
  std::int64_t position = 0;  // number of the present revision
  std::int64_t serial = 0;    // grows with every change, undo and save too
  std::string disk_hash;      // of the file as it was last read or written; empty: there was none
  std::int64_t undo_to = 0;   // 0: nothing to go back to
  std::int64_t redo_to = 0;   // the newest revision made from the present one; 0: there is none
  std::string undo_note;      // of what undo takes back
  std::string redo_note;
};

/// Why the journal could not do it. Nothing was changed then.
struct Fault {
  enum class Kind { ReadOnly, Full, Disk, Damaged, NotThere };
  Kind kind = Kind::Disk;
  std::string what;    // one sentence
  std::string remedy;  // one sentence
};

template <typename T>
using Answer = Result<T, Fault>;

/// What is about to be written down.
struct Entry {
  std::string text;
  std::vector<Draft> drafts;
  std::string note;
  std::string client;
  std::int64_t time = 0;                 // [ms since 1970]
  std::optional<std::string> disk_hash;  // when the text is that of the file
};

/// The memory of the workbench: every revision of every job, by the path of its file. Nothing is ever taken
/// out, so undo has no end and a branch that undo left is still there.
///
/// Model:  one SQLite file, write-ahead log, synchronous FULL: what was acknowledged survives kill -9 and a
///         power cut. Text and drafts are opaque. A revision holds only what differs from its parent, each
///         64th the whole.
/// Threads: one at a time. Processes: one writes (a lock file beside the database says which); any more only
///         read.
/// Errors: a Fault; the file is then as it was.
/// Tested: journal_test.cc, journal_property_test.cc, test/durability
class Journal {
 public:
  /// How it stands, beside what notice() says in words.
  enum class Standing {
    Kept,         // on the disk, all of it
    Renewed,      // a new one was started: the old one was damaged, or it was taken away
    Shortened,    // on the disk, but it has lost its end
    Beside,       // a newer program's journal was left alone: another one beside it is used
    OtherWrites,  // another process has it: this one only reads
    CannotWrite,  // its lock cannot be had, though nobody has it: this one only reads
    InMemory      // lost at the end
  };

  /// Opens, or begins, the journal in `file`. It is opened in some way whenever it can be: `notice()` says
  /// when that is not the requested one.
  ///
  /// Another process has it:      read only, until try_to_write().
  /// Its lock cannot be had:      the same.
  /// It holds less than it did:   used as it is; standing() and notice() tell.
  /// Damaged:                     renamed to FILE.damaged-1, and a new one is started.
  /// Of a newer program:          left as it is, and FILE.v1 is used beside it.
  /// The folder cannot be used:   kept in memory, lost at the end.
  static Journal open(const std::string& file);

  /// Kept nowhere.
  static Journal in_memory();

  ~Journal();
  Journal(Journal&&) noexcept;
  Journal& operator=(Journal&&) noexcept;

  /// What the user must know of how it was opened; empty when all is well.
  const std::string& notice() const;
  Standing standing() const;
  bool read_only() const;
  /// True when nothing is kept after the end.
  bool is_in_memory() const;
  /// The file in use; empty in memory.
  const std::string& file() const;

  /// Tells other processes, by the lock file, where this one is to be found.
  void announce_address(const std::string& address);
  /// Where the process that holds the journal is to be found, when this one only reads.
  const std::string& other_address() const;
  /// Where the process was to be found that wrote the journal before this one; empty when nobody knows.
  const std::string& earlier_address() const;

  /// When this one only reads: writes from now on, if it can. True when it does.
  bool try_to_write();
  /// When its file was taken away or another one put in its place: opens or begins the one that is there now,
  /// and returns true. What was in the old one is no longer there.
  bool renew_if_displaced();

  /// The present revision of the job; nothing when it was never saved here.
  Answer<std::optional<Track>> track(const std::string& job) const;
  Answer<Revision> revision(const std::string& job, std::int64_t number) const;
  /// This client has made a revision of the job.
  Answer<bool> has_made(const std::string& client, const std::string& job) const;

  /// Writes a new revision made from the present one, and moves there.
  Answer<Track> append(const std::string& job, const Entry& entry);
  /// Moves to the parent, or stays if there is no parent.
  Answer<Track> undo(const std::string& job);
  /// Moves to the newest child, or stays if there is no child.
  Answer<Track> redo(const std::string& job);
  Answer<Track> set_disk_hash(const std::string& job, const std::string& hash);

 private:
  struct Database;
  explicit Journal(std::unique_ptr<Database> database);
  std::unique_ptr<Database> database_;
};

}  // namespace shimwright::store
