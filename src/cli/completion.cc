#include "cli/completion.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

namespace shimwright::cli {

std::string bash_completion(const CLI::App& app) {
  std::string verbs, cases;
  for (const CLI::App* verb : app.get_subcommands([](const CLI::App*) { return true; })) {
    verbs += (verbs.empty() ? "" : " ") + verb->get_name();
    std::string options;
    for (const CLI::Option* option : verb->get_options([](const CLI::Option*) { return true; }))
      for (const std::string& name : option->get_lnames()) options += (options.empty() ? "--" : " --") + name;
    cases += fmt::format("    {}) options=\"{}\" ;;\n", verb->get_name(), options);
  }
  return fmt::format(R"(# completions of shimwright for bash
_shimwright() {{
  local word=${{COMP_WORDS[COMP_CWORD]}} options=""
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "{}" -- "$word"))
    return
  fi
  case ${{COMP_WORDS[COMP_CWORD-1]}} in
    --units) COMPREPLY=($(compgen -W "metric imperial" -- "$word")); return ;;
    --theory) COMPREPLY=($(compgen -W "large linear" -- "$word")); return ;;
    --paper) COMPREPLY=($(compgen -W "a4 letter" -- "$word")); return ;;
  esac
  case ${{COMP_WORDS[1]}} in
{}  esac
  case $word in
    -*) COMPREPLY=($(compgen -W "$options" -- "$word")) ;;
    *) COMPREPLY=($(compgen -f -X '!*.toml' -- "$word") $(compgen -d -S / -- "$word")) ;;
  esac
}}
complete -o nospace -F _shimwright shimwright
)",
                     verbs, cases);
}

}  // namespace shimwright::cli
