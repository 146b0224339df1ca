#include <fmt/core.h>

#include "cli/usage.h"

namespace shimwright::cli {
namespace {

/// As roff reads it as plain text: no escape, no hyphen that breaks, no dot that begins a request.
std::string plain(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\')
      out += "\\e";
    else if (c == '-')
      out += "\\-";
    else if (c == '\'')
      out += "\\(aq";
    else
      out += c;
  }
  return out.starts_with('.') ? "\\&" + out : out;
}

std::string sentence(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return plain(text) + ".";
}

std::string value_of(const OptionUsage& option) {
  if (!option.takes_value || option.is_place) return "";
  std::string words;
  for (const std::string& choice : option.choices) words += (words.empty() ? "" : "|") + choice;
  return words.empty() ? " \\fIVALUE\\fR" : " \\fI" + plain(words) + "\\fR";
}

std::string section_of(const VerbUsage& verb) {
  std::string places;
  for (const OptionUsage& option : verb.options)
    if (option.is_place) places += " \\fI" + plain(option.name) + "\\fR";
  std::string text = fmt::format(".SS shimwright {}{}\n{}\n", plain(verb.name), places, sentence(verb.what));
  for (const OptionUsage& option : verb.options) {
    text += fmt::format(".TP\n{}{}{}\n{}\n", option.is_place ? "\\fI" : "\\fB", plain(option.name),
                        "\\fR" + value_of(option), sentence(option.what));
    if (!option.usual.empty()) text += fmt::format("Default: {}.\n", plain(option.usual));
  }
  if (!verb.example.empty())
    text += fmt::format(".PP\nExample:\n.PP\n.RS 4\n.nf\n{}\n.fi\n.RE\n", plain(verb.example));
  return text;
}

}  // namespace

std::string manual_page(const ProgramUsage& program, const std::string& version) {
  std::string text = fmt::format(
      ".TH SHIMWRIGHT 1 \"\" \"shimwright {}\" \"User commands\"\n"
      ".SH NAME\nshimwright \\- valve stacks, springs and oil of forks and shocks\n"
      ".SH SYNOPSIS\n.B shimwright\n\\fICOMMAND\\fR [\\fIOPTION\\fR]... \\fIJOB\\fR\n"
      ".SH DESCRIPTION\n{}\n"
      "A job file says what is built, for which rider and machine; {} describes it.\n"
      ".SH COMMANDS\n",
      plain(version), plain(program.what), plain("docs/job-file.md"));
  for (const VerbUsage& verb : program.verbs) text += section_of(verb);
  text += ".SH NOTES\n";
  for (const std::string& note : program.notes) text += plain(note) + "\n.PP\n";
  text +=
      ".SH FILES\n.TP\n\\fI~/.local/share/shimwright/journal.db\\fR\n"
      "What was typed at the workbench; below \\fB$XDG_DATA_HOME\\fR where that is set.\n"
      ".TP\n\\fI/usr/share/doc/shimwright\\fR\nThe documents and the examples, where the program was "
      "installed as a package.\n";
  return text;
}

}  // namespace shimwright::cli
