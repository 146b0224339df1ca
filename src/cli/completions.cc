#include <fmt/core.h>

#include <algorithm>

#include "cli/usage.h"

namespace shimwright::cli {
namespace {

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
  return text;
}

/// With a backslash before each character that a shell's own grammar would take.
std::string escaped(const std::string& text, const std::string& special) {
  std::string out;
  for (const char c : text) {
    if (special.find(c) != std::string::npos) out += '\\';
    out += c;
  }
  return out;
}

/// For a text in single quotes.
std::string quoted(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out;
}

/// The options that have a name, of all verbs, each once.
std::vector<OptionUsage> options_with_choices(const ProgramUsage& program) {
  std::vector<OptionUsage> found;
  for (const VerbUsage& verb : program.verbs)
    for (const OptionUsage& option : verb.options)
      if (!option.is_place && !option.choices.empty() &&
          std::ranges::find(found, option.name, &OptionUsage::name) == found.end())
        found.push_back(option);
  return found;
}

std::string of_bash(const ProgramUsage& program) {
  std::string verbs, cases, values;
  for (const VerbUsage& verb : program.verbs) {
    verbs += (verbs.empty() ? "" : " ") + verb.name;
    std::string options = "--help", places;
    for (const OptionUsage& option : verb.options) {
      if (!option.is_place)
        options += " " + option.name;
      else if (!option.choices.empty())
        places = joined(option.choices);
    }
    cases += fmt::format("    {}) options=\"{}\" places=\"{}\" ;;\n", verb.name, options, places);
  }
  for (const OptionUsage& option : options_with_choices(program))
    values += fmt::format("    {}) COMPREPLY=($(compgen -W \"{}\" -- \"$word\")); return ;;\n", option.name,
                          joined(option.choices));
  return fmt::format(R"(# completions of shimwright for bash
_shimwright() {{
  local word=${{COMP_WORDS[COMP_CWORD]}} options="" places=""
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "{} --help --version" -- "$word"))
    return
  fi
  case ${{COMP_WORDS[COMP_CWORD-1]}} in
{}  esac
  case ${{COMP_WORDS[1]}} in
{}  esac
  case $word in
    -*) COMPREPLY=($(compgen -W "$options" -- "$word")) ;;
    *) if [ -n "$places" ]; then COMPREPLY=($(compgen -W "$places" -- "$word"))
       else COMPREPLY=($(compgen -f -X '!*.toml' -- "$word") $(compgen -d -S / -- "$word")); fi ;;
  esac
}}
complete -o nospace -F _shimwright shimwright
)",
                     verbs, values, cases);
}

std::string of_zsh(const ProgramUsage& program) {
  const auto words = [](const std::string& text) { return quoted(escaped(text, "[]:\\")); };
  std::string verbs, cases;
  for (const VerbUsage& verb : program.verbs) {
    verbs += fmt::format("    '{}:{}'\n", verb.name, words(verb.what));
    cases += fmt::format("    {}) _arguments", verb.name);
    for (const OptionUsage& option : verb.options) {
      const std::string values = option.choices.empty() ? "" : fmt::format("({})", joined(option.choices));
      if (option.is_place)
        cases += fmt::format(" \\\n      ':{}:{}'", words(option.what),
                             values.empty() ? "_files -g \"*.toml(-.)\"" : values);
      else if (option.takes_value)
        cases += fmt::format(" \\\n      '{}[{}]:value:{}'", option.name, words(option.what), values);
      else
        cases += fmt::format(" \\\n      '{}[{}]'", option.name, words(option.what));
    }
    cases += " \\\n      '--help[show the options with an example]' ;;\n";
  }
  return fmt::format(R"(#compdef shimwright
# completions of shimwright for zsh
_shimwright() {{
  local -a verbs
  verbs=(
{}  )
  if (( CURRENT == 2 )); then
    _describe -t commands 'command' verbs
    return
  fi
  shift words
  (( CURRENT-- ))
  case $words[1] in
{}  esac
}}
_shimwright "$@"
)",
                     verbs, cases);
}

std::string of_fish(const ProgramUsage& program) {
  const auto words = [](const std::string& text) { return escaped(text, "\\'"); };
  std::string text = "# completions of shimwright for fish\n";
  for (const VerbUsage& verb : program.verbs) {
    text += fmt::format("complete -c shimwright -f -n __fish_use_subcommand -a {} -d '{}'\n", verb.name,
                        words(verb.what));
    for (const OptionUsage& option : verb.options) {
      text += fmt::format("complete -c shimwright -n '__fish_seen_subcommand_from {}'", verb.name);
      if (option.is_place)
        text +=
            option.choices.empty() ? std::string(" -F") : fmt::format(" -f -a '{}'", joined(option.choices));
      else
        text += fmt::format(" -l {}", option.name.substr(2));
      if (!option.is_place && option.takes_value)
        text +=
            option.choices.empty() ? std::string(" -r") : fmt::format(" -x -a '{}'", joined(option.choices));
      text += fmt::format(" -d '{}'\n", words(option.what));
    }
  }
  return text;
}

}  // namespace

std::string completion_script(const ProgramUsage& program, const std::string& shell) {
  if (shell == "zsh") return of_zsh(program);
  if (shell == "fish") return of_fish(program);
  return of_bash(program);
}

}  // namespace shimwright::cli
