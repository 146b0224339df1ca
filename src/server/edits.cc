#include "server/edits.h"

#include <fmt/core.h>

#include <algorithm>
#include <charconv>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "base/utf8.h"
#include "file/edit.h"

namespace shimwright::server {
namespace {

using store::Draft;
using Edited = Result<std::string, Diagnostics>;

/// The fault of a path that leads nowhere; a wrong value is not one of these.
bool leads_nowhere(const Diagnostic& diagnostic) {
  return diagnostic.line == 0;
}

ApiFault no_such_key(const Diagnostic& diagnostic) {
  return {422, "no_such_key",
          fmt::format("{}: {}", printable(diagnostic.path, 200),
                      diagnostic.what.empty() ? "a job file has no such key" : diagnostic.what),
          diagnostic.remedy.empty() ? "Read the job again: it may have changed." : diagnostic.remedy};
}

Edited tried(const std::string& text, const Draft& draft) {
  return draft.insert ? file::insert_item(text, draft.path, draft.typed)
                      : file::set_key(text, draft.path, draft.typed);
}

// ---- drafts follow their list

/// "stack" and 2 of "stack[2]"; nothing when the path does not end in an index.
std::optional<std::pair<std::string, std::size_t>> split_index(std::string_view path) {
  if (!path.ends_with(']')) return std::nullopt;
  const std::size_t bracket = path.rfind('[');
  if (bracket == std::string_view::npos) return std::nullopt;
  std::size_t index{};
  const char* end = path.data() + path.size() - 1;
  const auto [stop, fault] = std::from_chars(path.data() + bracket + 1, end, index);
  if (stop != end) return std::nullopt;
  if (fault != std::errc()) return std::nullopt;
  return std::pair{std::string(path.substr(0, bracket)), index};
}

/// Where the element of `list` that a draft lies in went; `to` maps old to new indices, nothing: it is gone.
template <typename To>
void follow(std::vector<FaultyDraft>& drafts, const std::string& list, To&& to) {
  std::erase_if(drafts, [&](FaultyDraft& faulty) {
    std::string& path = faulty.draft.path;
    if (!path.starts_with(list + "[")) return false;
    const std::size_t end = path.find(']', list.size());
    if (end == std::string::npos) return false;
    const auto place = split_index({path.data(), end + 1});
    if (!place) return false;
    const std::optional<std::size_t> moved = to(place->second);
    if (!moved) return true;
    path = fmt::format("{}[{}]{}", list, *moved, path.substr(end + 1));
    return false;
  });
}

bool lies_within(std::string_view path, std::string_view whole) {
  return path.starts_with(whole) &&
         (path.size() == whole.size() || path[whole.size()] == '.' || path[whole.size()] == '[');
}

// ---- one edit after the other

struct Work {
  Drafted now;

  std::optional<ApiFault> write(const Draft& draft) {
    auto next = tried(now.text, draft);
    const auto same_place = [&](const FaultyDraft& other) {
      return other.draft.path == draft.path && other.draft.insert == draft.insert;
    };
    if (next) {
      std::erase_if(now.drafts, same_place);
      now.text = std::move(*next);
      if (draft.insert) shift_behind(draft.path);
      return std::nullopt;
    }
    const Diagnostic& diagnostic = next.error().front();
    if (leads_nowhere(diagnostic)) return no_such_key(diagnostic);
    const auto there = std::ranges::find_if(now.drafts, same_place);
    if (there != now.drafts.end())
      *there = {draft, diagnostic};
    else
      now.drafts.push_back({draft, diagnostic});
    return std::nullopt;
  }

  void shift_behind(const std::string& path) {
    const auto place = split_index(path);
    if (!place) return;
    follow(now.drafts, place->first, [&](std::size_t index) -> std::optional<std::size_t> {
      return index >= place->second ? index + 1 : index;
    });
  }

  std::optional<ApiFault> remove(const std::string& path) {
    auto next = file::remove_item(now.text, path);
    if (!next) return no_such_key(next.error().front());
    now.text = std::move(*next);
    std::erase_if(now.drafts, [&](const FaultyDraft& faulty) {
      return lies_within(faulty.draft.path, path) && !(faulty.draft.insert && faulty.draft.path == path);
    });
    if (const auto place = split_index(path)) {
      follow(now.drafts, place->first, [&](std::size_t index) -> std::optional<std::size_t> {
        return index > place->second ? index - 1 : index;
      });
    }
    return std::nullopt;
  }

  std::optional<ApiFault> move(const std::string& path, std::size_t to) {
    auto next = file::move_item(now.text, path, to);
    if (!next) return no_such_key(next.error().front());
    now.text = std::move(*next);
    const auto place = split_index(path);
    if (!place) return std::nullopt;
    const std::size_t from = place->second;
    follow(now.drafts, place->first, [&](std::size_t index) -> std::optional<std::size_t> {
      if (index == from) return to;
      if (from < index && index <= to) return index - 1;
      if (to <= index && index < from) return index + 1;
      return index;
    });
    return std::nullopt;
  }

  std::optional<ApiFault> apply(const Edit& edit) {
    switch (edit.kind) {
      case Edit::Kind::Set:
        return write({edit.path, edit.typed, false});
      case Edit::Kind::Insert:
        return write({edit.path, edit.typed, true});
      case Edit::Kind::Remove:
        return remove(edit.path);
      case Edit::Kind::Move:
        return move(edit.path, edit.to);
      case Edit::Kind::Drop:
        std::erase_if(now.drafts, [&](const FaultyDraft& faulty) { return faulty.draft.path == edit.path; });
        return std::nullopt;
      case Edit::Kind::Text:
        now.text = edit.typed;
        return std::nullopt;
    }
    return std::nullopt;
  }

  /// Takes the drafts that have become good, lets go of those whose place is gone, and looks at the rest.
  void look_at_drafts() {
    const std::vector<FaultyDraft> before = std::exchange(now.drafts, {});
    for (const FaultyDraft& faulty : before) write(faulty.draft);
  }
};

/// The indices that each list of a text has.
std::map<std::string, std::set<std::size_t>> lists_of(const std::string& text) {
  std::map<std::string, std::set<std::size_t>> lists;
  for (const file::TypedValue& value : file::typed_values(text))
    for (const char& c : value.path) {
      if (c != ']') continue;
      const auto place = split_index({value.path.data(), &c + 1});
      if (place) lists[place->first].insert(place->second);
    }
  return lists;
}

/// "seal friction" of "unit[0].seal_friction", "shim 3" of "x.stack[2]".
std::string words_of(std::string_view path) {
  std::string suffix;
  if (const auto place = split_index(path)) {
    suffix = fmt::format(" {}", place->second + 1);
    path = path.substr(0, place->first.size());
  }
  std::string name(path.substr(path.rfind('.') + 1));
  std::ranges::replace(name, '_', ' ');
  return printable(name, 40) + suffix;
}

}  // namespace

std::vector<store::Draft> plain(const std::vector<FaultyDraft>& drafts) {
  std::vector<store::Draft> plain;
  for (const FaultyDraft& faulty : drafts) plain.push_back(faulty.draft);
  return plain;
}

Answer<Drafted> edited(const std::string& text, const std::vector<store::Draft>& drafts,
                       const std::vector<Edit>& edits) {
  Work work{{text, {}}};
  for (const Draft& draft : drafts) work.now.drafts.push_back({draft, {}});
  for (const Edit& edit : edits)
    if (auto fault = work.apply(edit)) return failure(std::move(*fault));
  work.look_at_drafts();
  return std::move(work.now);
}

bool means_the_same(const std::vector<Edit>& edits, const std::string& base, const std::string& present) {
  auto before = lists_of(base), now = lists_of(present);
  for (const Edit& edit : edits)
    for (const char& c : edit.path) {
      if (c != '[') continue;
      const std::string list(edit.path.data(), &c);
      if (before[list] != now[list]) return false;
    }
  return true;
}

std::string note_of(const std::vector<Edit>& edits) {
  if (edits.empty()) return "nothing";
  const Edit& edit = edits.front();
  const std::string more = edits.size() > 1 ? fmt::format(", and {} more", edits.size() - 1) : "";
  switch (edit.kind) {
    case Edit::Kind::Set:
      return fmt::format("{} to {}{}", words_of(edit.path), printable(edit.typed, 40), more);
    case Edit::Kind::Insert:
      return fmt::format("add {}{}", printable(edit.typed, 40), more);
    case Edit::Kind::Remove:
      return fmt::format("remove {}{}", words_of(edit.path), more);
    case Edit::Kind::Move:
      return fmt::format("move {}{}", words_of(edit.path), more);
    case Edit::Kind::Drop:
      return fmt::format("discard the draft of {}{}", words_of(edit.path), more);
    case Edit::Kind::Text:
      return "edit the text" + more;
  }
  return "";
}

}  // namespace shimwright::server
