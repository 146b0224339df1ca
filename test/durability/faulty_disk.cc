#include "faulty_disk.h"

#include <signal.h>
#include <sqlite3.h>
#include <unistd.h>

#include <cstring>
#include <filesystem>
#include <new>
#include <string>
#include <vector>

namespace shimwright::durability {
namespace {

namespace fs = std::filesystem;

constexpr const char* kSynced = ".synced";

struct Plan {
  Accident accident = Accident::None;
  long n = 0;      // the operation that it happens at, from 1
  long count = 0;  // operations so far
};
Plan plan;
sqlite3_vfs* real_disk = nullptr;
sqlite3_vfs faulty_disk;

/// A file as SQLite holds it, with the real one behind it in the same piece of memory.
struct File {
  sqlite3_file base;
  const char* name;
  sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};

File* of(sqlite3_file* file) {
  return reinterpret_cast<File*>(file);
}

[[noreturn]] void die() {
  ::kill(::getpid(), SIGKILL);
  while (true) ::pause();
}

/// Counts an operation; SQLITE_OK, or how it fails. `is_write` of one that takes room.
int step(bool is_write) {
  ++plan.count;
  switch (plan.accident) {
    case Accident::None:
      return SQLITE_OK;
    case Accident::FailOnce:
      return plan.count == plan.n ? SQLITE_IOERR_WRITE : SQLITE_OK;
    case Accident::FailAlways:
      return plan.count >= plan.n ? SQLITE_IOERR_WRITE : SQLITE_OK;
    case Accident::Full:
      return is_write && plan.count >= plan.n ? SQLITE_FULL : SQLITE_OK;
    case Accident::Kill:
    case Accident::PowerCut:
      return plan.count == plan.n ? SQLITE_ABORT : SQLITE_OK;
  }
  return SQLITE_OK;
}

int close(sqlite3_file* file) {
  return of(file)->real()->pMethods->xClose(of(file)->real());
}
int read(sqlite3_file* file, void* bytes, int n, sqlite3_int64 at) {
  return of(file)->real()->pMethods->xRead(of(file)->real(), bytes, n, at);
}
int write(sqlite3_file* file, const void* bytes, int n, sqlite3_int64 at) {
  sqlite3_file* real = of(file)->real();
  const int fault = step(true);
  if (fault == SQLITE_ABORT) {
    real->pMethods->xWrite(real, bytes, n / 2, at);
    die();
  }
  return fault ? fault : real->pMethods->xWrite(real, bytes, n, at);
}
int truncate(sqlite3_file* file, sqlite3_int64 size) {
  const int fault = step(false);
  if (fault == SQLITE_ABORT) die();
  return fault ? fault : of(file)->real()->pMethods->xTruncate(of(file)->real(), size);
}
int sync(sqlite3_file* file, int flags) {
  const int fault = step(false);
  if (fault == SQLITE_ABORT) die();
  if (fault) return fault;
  const int done = of(file)->real()->pMethods->xSync(of(file)->real(), flags);
  if (done == SQLITE_OK && plan.accident == Accident::PowerCut) {
    // in one step: the kill may come at any time
    const std::string kept = of(file)->name + std::string(kSynced);
    fs::copy_file(of(file)->name, kept + ".new", fs::copy_options::overwrite_existing);
    fs::rename(kept + ".new", kept);
  }
  return done;
}
int file_size(sqlite3_file* file, sqlite3_int64* size) {
  return of(file)->real()->pMethods->xFileSize(of(file)->real(), size);
}
int lock(sqlite3_file* file, int level) {
  return of(file)->real()->pMethods->xLock(of(file)->real(), level);
}
int unlock(sqlite3_file* file, int level) {
  return of(file)->real()->pMethods->xUnlock(of(file)->real(), level);
}
int check_lock(sqlite3_file* file, int* held) {
  return of(file)->real()->pMethods->xCheckReservedLock(of(file)->real(), held);
}
int control(sqlite3_file* file, int operation, void* argument) {
  return of(file)->real()->pMethods->xFileControl(of(file)->real(), operation, argument);
}
int sector_size(sqlite3_file* file) {
  return of(file)->real()->pMethods->xSectorSize(of(file)->real());
}
int characteristics(sqlite3_file* file) {
  return of(file)->real()->pMethods->xDeviceCharacteristics(of(file)->real());
}
int shm_map(sqlite3_file* file, int page, int size, int extend, void volatile** memory) {
  return of(file)->real()->pMethods->xShmMap(of(file)->real(), page, size, extend, memory);
}
int shm_lock(sqlite3_file* file, int offset, int n, int flags) {
  return of(file)->real()->pMethods->xShmLock(of(file)->real(), offset, n, flags);
}
void shm_barrier(sqlite3_file* file) {
  of(file)->real()->pMethods->xShmBarrier(of(file)->real());
}
int shm_unmap(sqlite3_file* file, int remove) {
  return of(file)->real()->pMethods->xShmUnmap(of(file)->real(), remove);
}

// version 2: no memory-mapped pages, so that every write passes through here
const sqlite3_io_methods kMethods = {
    2,         close,      read,    write,       truncate,        sync,    file_size, lock,
    unlock,    check_lock, control, sector_size, characteristics, shm_map, shm_lock,  shm_barrier,
    shm_unmap, nullptr,    nullptr};

int open(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* out_flags) {
  File* made = new (file) File{};
  const int done = real_disk->xOpen(real_disk, name, made->real(), flags, out_flags);
  made->name = name;  // SQLite keeps the name as long as the file
  made->base.pMethods = done == SQLITE_OK ? &kMethods : nullptr;
  return done;
}
int remove(sqlite3_vfs*, const char* name, int sync_folder) {
  const int fault = step(false);
  if (fault == SQLITE_ABORT) die();
  if (fault) return SQLITE_IOERR_DELETE;
  if (plan.accident == Accident::PowerCut) fs::remove(name + std::string(kSynced));
  return real_disk->xDelete(real_disk, name, sync_folder);
}

}  // namespace

void use_faulty_disk(Accident accident, long n) {
  plan = {accident, n, 0};
  if (real_disk) return;
  real_disk = sqlite3_vfs_find(nullptr);
  faulty_disk = *real_disk;
  faulty_disk.zName = "faulty";
  faulty_disk.szOsFile = static_cast<int>(sizeof(File)) + real_disk->szOsFile;
  faulty_disk.xOpen = open;
  faulty_disk.xDelete = remove;
  sqlite3_vfs_register(&faulty_disk, 1);
}

long n_operations() {
  return plan.count;
}

void restore_synced(const std::string& folder) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(folder)) files.push_back(entry.path());
  for (const fs::path& file : files) {
    const std::string name = file.string();
    if (name.ends_with(kSynced) || name.ends_with(".new")) continue;
    if (name.find("journal.db") == std::string::npos || name.ends_with(".lock")) continue;
    if (fs::exists(name + kSynced))
      fs::rename(name + kSynced, file);
    else
      fs::remove(file);  // its name was there, its bytes never
  }
}

}  // namespace shimwright::durability
