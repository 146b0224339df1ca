#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <string>
#include <vector>

#include "store/journal.h"
#include "store/text_change.h"

namespace shimwright::store {
namespace {

RC_GTEST_PROP(TextChangeProperty, MakesTheSecondTextFromTheFirst,
              (const std::string& a, const std::string& b)) {
  RC_ASSERT(changed(a, change_between(a, b)) == b);
}

RC_GTEST_PROP(TextChangeProperty, KeepsOnlyWhatWasTypedOfASmallEdit,
              (const std::string& head, const std::string& typed, const std::string& tail)) {
  const TextChange change = change_between(head + tail, head + typed + tail);
  RC_ASSERT(change.middle.size() == typed.size());
}

/// The journal as a list in memory: what the real one must agree with.
struct Reference {
  struct Node {
    std::size_t parent;
    std::string text;
  };
  std::vector<Node> nodes = {{0, ""}};
  std::size_t position = 0;

  void append(const std::string& text) {
    nodes.push_back({position, text});
    position = nodes.size() - 1;
  }
  void undo() {
    if (position > 0 && nodes[position].parent > 0) position = nodes[position].parent;
  }
  void redo() {
    for (std::size_t i = nodes.size() - 1; i > 0; --i) {
      if (nodes[i].parent == position) {
        position = i;
        return;
      }
    }
  }
};

RC_GTEST_PROP(JournalProperty, AgreesWithAPlainListUnderAnyEditsUndosAndRedos, ()) {
  Journal journal = Journal::in_memory();
  Reference reference;
  const auto first = *rc::gen::arbitrary<std::string>();
  RC_ASSERT(journal.append("/a", {first, {}, "", "", 0, {}}).has_value());
  reference.append(first);
  const auto moves = *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 6));
  for (const int move : moves) {
    Answer<Track> track = [&] {
      if (move == 0) {
        reference.undo();
        return journal.undo("/a");
      }
      if (move == 1) {
        reference.redo();
        return journal.redo("/a");
      }
      const auto typed = *rc::gen::string<std::string>();
      std::string text = reference.nodes[reference.position].text;
      text.insert(text.size() / 2, typed);
      reference.append(text);
      return journal.append("/a", {text, {}, "", "", 0, {}});
    }();
    RC_ASSERT(track.has_value());
    RC_ASSERT(track->position == static_cast<std::int64_t>(reference.position));
  }
  for (std::size_t i = 1; i < reference.nodes.size(); ++i) {
    const auto revision = journal.revision("/a", static_cast<std::int64_t>(i));
    RC_ASSERT(revision.has_value());
    RC_ASSERT(revision->text == reference.nodes[i].text);
    RC_ASSERT(revision->parent == static_cast<std::int64_t>(reference.nodes[i].parent));
  }
}

}  // namespace
}  // namespace shimwright::store
