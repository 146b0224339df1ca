// Laws of reading and editing, on texts made at random.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "toml/edit.h"
#include "toml/quoted.h"

namespace shimwright::toml {
namespace {

/// Bytes that lead deep into a TOML reader more often than evenly drawn ones.
rc::Gen<std::string> any_bytes() {
  const auto piece = rc::gen::oneOf(
      rc::gen::element<std::string>("[", "]", "{", "}", "=", ",", ".", "\"", "'", "\"\"\"", "'''", "\n",
                                    "\r\n", "#", " ", "a", "b", "1", "0.15 mm", "\\", "\\u", "[[", "]]",
                                    "2024-02-29", "T07:32:00", "_", "-", "\r"),
      rc::gen::map(rc::gen::arbitrary<char>(), [](char c) { return std::string(1, c); }));
  return rc::gen::map(rc::gen::container<std::vector<std::string>>(piece),
                      [](const std::vector<std::string>& pieces) {
                        std::string text;
                        for (const auto& p : pieces) text += p;
                        return text;
                      });
}

rc::Gen<std::string> some_value() {
  return rc::gen::element<std::string>("1", "-2.5", "\"0.15 mm\"", "true", "[1, 2]", "{ x = 1 }",
                                       "2024-02-29", "[\n  1, # one\n  2\n]", "'''a\nb'''", "[]",
                                       "07:32:00.5");
}

/// A sound document with remarks, odd spacing, tables and lists of tables, in either kind of line ending.
rc::Gen<std::string> some_document() {
  return rc::gen::exec([] {
    const std::string nl = *rc::gen::element<std::string>("\n", "\r\n");
    const auto entries = [&](std::string& text) {
      const int n = *rc::gen::inRange(0, 4);
      for (int i = 0; i < n; ++i) {
        if (*rc::gen::arbitrary<bool>()) text += "  # remark = 1" + nl;
        text += *rc::gen::element<std::string>("", "  ", "\t");
        text +=
            "k" + std::to_string(i) + *rc::gen::element<std::string>("=", " = ", "    =  ") + *some_value();
        text += *rc::gen::element<std::string>("", "  # [why]") + nl;
        if (*rc::gen::arbitrary<bool>()) text += nl;
      }
    };
    std::string text = "first = 1" + nl + "list = [3]" + nl;
    entries(text);
    const int n_tables = *rc::gen::inRange(0, 4);
    for (int i = 0; i < n_tables; ++i) {
      const std::string name = "t" + std::to_string(i);
      const int kind = *rc::gen::inRange(0, 3);
      if (kind == 0) text += "[" + name + "]" + nl;
      if (kind == 1) text += "# of " + name + nl + "[" + name + ".sub]" + nl;
      if (kind == 2) text += "[[" + name + "]]" + nl + "k0 = 1" + nl + nl + "[[" + name + "]]" + nl;
      entries(text);
    }
    return text;
  });
}

void collect(const Node& node, std::vector<const Node*>& out) {
  for (const auto& child : node.children) {
    out.push_back(child.get());
    collect(*child, out);
  }
}

std::vector<const Node*> nodes_of(const Document& document) {
  std::vector<const Node*> nodes;
  collect(*document.root, nodes);
  return nodes;
}

RC_GTEST_PROP(TomlProperty, AnyBytesAreReadWithFaultsInsideTheText, ()) {
  const std::string text = *any_bytes();
  const Document document = parse(text);
  RC_ASSERT(document.text == text);
  std::size_t last = 0;
  for (const Fault& fault : document.faults) {
    RC_ASSERT(last <= fault.begin && fault.begin <= fault.end && fault.end <= text.size());
    RC_ASSERT(fault.line >= 1 && fault.column >= 1 && !fault.what.empty() && !fault.remedy.empty());
    last = fault.begin;
  }
}

RC_GTEST_PROP(TomlProperty, EveryNodeIsFoundByItsPath, ()) {
  const Document document = parse(*some_document());
  RC_ASSERT(document.ok());
  for (const Node* node : nodes_of(document)) RC_ASSERT(document.at(path_of(*node)) == node);
}

RC_GTEST_PROP(TomlProperty, AnyTextComesBackFromItsQuotedForm, (const std::string& bytes)) {
  const std::string quoted = quote(bytes);
  const Document document = parse("v = " + quoted);
  RC_ASSERT(document.ok());
  RC_ASSERT(quote(*document.at("v")->as_string()) == quoted);
}

RC_GTEST_PROP(TomlProperty, SettingAValueLeavesEveryByteOutsideItAsItWas, ()) {
  const std::string text = *some_document();
  const Document document = parse(text);
  std::vector<const Node*> values;
  for (const Node* node : nodes_of(document)) {
    if (node->origin == Origin::Value || node->origin == Origin::Inline) values.push_back(node);
  }
  const Node* node = *rc::gen::elementOf(values);
  const std::string value = *some_value();
  const Edited edited = set_value(document, path_of(*node), value);
  RC_ASSERT(edited.has_value());
  RC_ASSERT(*edited == text.substr(0, node->span.begin) + value + text.substr(node->span.end));
  const Edited back = set_value(parse(*edited), path_of(*node), document.slice(node->span));
  RC_ASSERT(back.has_value());
  RC_ASSERT(*back == text);
}

RC_GTEST_PROP(TomlProperty, ANewKeyOnlyAddsBytesAndGoesAgainWithoutATrace, ()) {
  const std::string text = *some_document();
  const Document document = parse(text);
  std::vector<std::string> tables = {""};
  for (const Node* node : nodes_of(document)) {
    if (node->is_table()) tables.push_back(path_of(*node) + ".");
  }
  const std::string path = *rc::gen::elementOf(tables) + "fresh";
  const Edited edited = set_value(document, path, "\"0.15 mm\"");
  RC_ASSERT(edited.has_value());
  // what was there is a common head and a common tail of the new text
  const auto head = std::mismatch(text.begin(), text.end(), edited->begin(), edited->end());
  const std::size_t n_head = static_cast<std::size_t>(head.first - text.begin());
  const std::size_t n_tail = text.size() - n_head;
  RC_ASSERT(edited->size() > text.size());
  RC_ASSERT(edited->substr(edited->size() - n_tail) == text.substr(n_head));
  const Edited back = remove_key(parse(*edited), path);
  RC_ASSERT(back.has_value());
  RC_ASSERT(same_value(
      *parse(*back).root,
      *[&] {
        // a table that had no entries of its own keeps the header it was given
        return std::make_unique<Document>(parse(text));
      }()
           ->root));
}

RC_GTEST_PROP(TomlProperty, AnElementPutIntoAListCanBeTakenOutAgain, ()) {
  const Document document = parse(*some_document());
  std::vector<const Node*> lists;
  for (const Node* node : nodes_of(document)) {
    if (node->is_array()) lists.push_back(node);
  }
  const Node* list = *rc::gen::elementOf(lists);
  const auto index = *rc::gen::inRange<std::size_t>(0, list->children.size() + 1);
  const std::string path = path_of(*list) + "[" + std::to_string(index) + "]";
  const Edited longer = list->origin == Origin::TableArray ? insert_table(document, path, "n = 1\n")
                                                           : insert_element(document, path, "7");
  RC_ASSERT(longer.has_value());
  const Document between = parse(*longer);
  RC_ASSERT(between.at(path_of(*list))->children.size() == list->children.size() + 1);
  const Edited back = remove_element(between, path);
  RC_ASSERT(back.has_value());
  RC_ASSERT(same_value(*parse(*back).root, *document.root));
}

RC_GTEST_PROP(TomlProperty, EveryNodeCanBeRemovedAndTheRestStays, ()) {
  const Document document = parse(*some_document());
  const auto nodes = nodes_of(document);
  const Node* node = *rc::gen::elementOf(nodes);
  const std::string path = path_of(*node);
  const bool is_element = node->parent->is_array();
  const Edited shorter = is_element ? remove_element(document, path) : remove_key(document, path);
  RC_ASSERT(shorter.has_value());
  RC_ASSERT(shorter->size() < document.text.size());
}

}  // namespace
}  // namespace shimwright::toml
