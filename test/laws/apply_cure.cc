#include "apply_cure.h"

#include <fmt/format.h>

#include <cmath>

namespace shimwright::laws {

std::string toml_of(const document::Value& value) {
  using units::Kind;
  const auto text = [&](double number, const char* unit) {
    return fmt::format("\"{:.12g} {}\"", number, unit);
  };
  if (value.kind == Kind::Number && !value.typed.empty()) return "\"" + value.typed + "\"";
  switch (value.kind) {
    case Kind::Number:
      return value.si == std::round(value.si) ? fmt::format("{:.0f}", value.si)
                                              : fmt::format("{:.12g}", value.si);
    case Kind::Pressure:
      return text(1e-5 * value.si, value.reference == units::Reference::Absolute ? "bar(a)" : "bar(g)");
    case Kind::Temperature:
      return text(value.si - 273.15, "degC");
    case Kind::Mass:
      return text(value.si, "kg");
    case Kind::Force:
      return text(value.si, "N");
    case Kind::Length:
      return text(1e3 * value.si, "mm");
    default:
      return "";  // no cure of such a kind is known: the job will not load, and the law is broken
  }
}

bool apply(const document::KeyChange& change, Tree& job) {
  const std::size_t dot = change.path.rfind('.');
  if (dot == std::string::npos) return false;
  // an entry of a list is there already
  if (Tree* entry = change.path.ends_with(']') ? at_path(job, change.path) : nullptr) {
    *entry = Tree::value(toml_of(change.to));
    return true;
  }
  const std::string table = change.path.substr(0, dot);
  Tree* holder = at_path(job, table);
  if (holder == nullptr && table.find('.') == std::string::npos && table.find('[') == std::string::npos) {
    job.set(table, Tree::table());
    holder = job.find(table);
  }
  if (holder == nullptr || holder->shape != Tree::Shape::Table) return false;
  holder->set(change.path.substr(dot + 1), Tree::value(toml_of(change.to)));
  return true;
}

bool apply(const document::Cure& cure, Tree& job) {
  bool taken = true;
  for (const document::KeyChange& change : cure.changes) taken = apply(change, job) && taken;
  return taken;
}

}  // namespace shimwright::laws
