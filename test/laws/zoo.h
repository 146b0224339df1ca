#pragma once
#include <string>
#include <vector>

namespace shimwright::laws {

/// Paths of the invented jobs in test/zoo, in the order of their names.
std::vector<std::string> zoo_jobs();

/// The text of a file on the disk.
std::string text_of_file(const std::string& path);

}  // namespace shimwright::laws
