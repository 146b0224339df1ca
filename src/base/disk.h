#pragma once
#include <cstddef>
#include <string>
#include <string_view>

#include "base/result.h"

namespace shimwright {

/// The whole file, or one sentence why not; at most `limit` bytes.
Result<std::string, std::string> file_text(const std::string& path, std::size_t limit = 4u << 20);

/// Puts a file with these bytes in the place of what is at `path`, in one step that outlives a power cut: a
/// reader finds the old file or the new one, never half. Its permissions stay as they were; where `path` is
/// a link, the file that it names is replaced. Tested: disk_test.cc, test/durability
Result<void, std::string> replace_file(const std::string& path, std::string_view bytes);

/// A new file, or a sentence why not; one that is there already is left as it is.
Result<void, std::string> create_file(const std::string& path, std::string_view bytes);

/// The folder, and each of its parents that is not there yet, so that they outlive a power cut; one sentence
/// why not.
Result<void, std::string> make_folder(const std::string& path);

/// Writes the folder of `path` to the disk: the name of a file is part of its folder. False when it cannot.
bool sync_folder_of(const std::string& path);

}  // namespace shimwright
