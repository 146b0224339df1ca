#pragma once
#include <set>
#include <string>

#include "file/schema.h"
#include "toml/document.h"

namespace shimwright::laws {

/// Which lines of the schema a file uses: keys as "reservoir.kind", words as "reservoir.kind = gas".
struct SchemaUse {
  std::set<std::string> keys;
  std::set<std::string> words;
};

/// Everything that the schema has.
SchemaUse whole_schema();

/// Adds what the table `node` uses of `table`.
void add_use(const toml::Node& node, const file::TableSchema& table, SchemaUse& use);

}  // namespace shimwright::laws
