#pragma once
#include <string>

namespace CLI {
class App;
}

namespace shimwright::cli {

/// A bash completion script made from the verbs and options that the program has, so that it cannot fall
/// behind them.
std::string bash_completion(const CLI::App& app);

}  // namespace shimwright::cli
