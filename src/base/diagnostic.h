#pragma once
#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace shimwright {

enum class Severity { Note, Look, Stop };

/// Their words for a person, in the order of their values.
inline constexpr std::array kSeverityWords = {"fine", "look", "stop"};

std::string word(Severity severity);

/// A fault in something a person wrote: where, what was found, what is accepted, what to do.
/// Tested by code and position; the words are read by eye.
struct Diagnostic {
  std::string code;  // stable, "E0312"; docs/diagnostics.md lists all
  Severity severity = Severity::Stop;
  std::string file;      // as the user named it
  int line = 0;          // 1-based; 0 when there is no place
  int column = 0;        // 1-based, in characters (code points)
  int length = 1;        // how many characters the caret underlines
  std::string path;      // key path, "piston_valve.rebound.discs[3].thickness"
  std::string what;      // one short clause, "expected a length with its unit"
  std::string got;       // what was found, as typed
  std::string expected;  // what would be accepted
  std::string remedy;    // one imperative sentence
};

using Diagnostics = std::vector<Diagnostic>;

bool has_stop(std::span<const Diagnostic> diagnostics);

/// In file order: by file, line, column, then code.
void sort_by_place(Diagnostics& diagnostics);

/// The printed form: heading, the source line with a caret below, found and accepted, the remedy.
/// `source` is the text of the file the diagnostic speaks of; empty when it is not known.
std::string render(const Diagnostic& diagnostic, std::string_view source);

/// The name in `known` closest to `word` (Damerau-Levenshtein, at most a third of the letters wrong), or "".
std::string nearest_name(std::string_view word, std::span<const std::string> known);

}  // namespace shimwright
