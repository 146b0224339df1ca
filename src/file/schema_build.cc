#include "file/schema_build.h"

namespace shimwright::file {

namespace {

/// Of a member that takes what `read` gives.
template <typename Member>
MemberReader member_of(Member (*read)(Reading&, const KeySchema&, const toml::Node&)) {
  return reader_of<Member>([read](Reading& reading, const KeySchema& key, const toml::Node& node,
                                  Member& member) { member = read(reading, key, node); });
}

}  // namespace

KeySchema key_of(ValueKind kind, std::string_view name, MemberAt member, MemberReader reader,
                 std::string_view doc, std::string_view example) {
  KeySchema key;
  key.name = name;
  key.kind = kind;
  key.doc = doc;
  key.example = example;
  key.is_given = [member, is_given = reader.is_given](void* spec) { return is_given(member(spec)); };
  key.read = [member = std::move(member), read = std::move(reader.read)](
                 Reading& reading, const KeySchema& self, const toml::Node& node, void* spec) {
    read(reading, self, node, member(spec));
  };
  return key;
}

KeySchema required(KeySchema key) {
  key.required = true;
  return key;
}

KeySchema quantity_key(std::string_view name, MemberAt member, units::Kind unit, const Bounds& bounds,
                       std::string_view doc, std::string_view example) {
  KeySchema key =
      key_of(ValueKind::Quantity, name, std::move(member), member_of(read_quantity), doc, example);
  key.unit = unit;
  key.bounds = bounds;
  return key;
}

KeySchema quantity_range_key(std::string_view name, MemberAt member, units::Kind unit, const Bounds& bounds,
                             std::string_view doc, std::string_view example) {
  KeySchema key =
      key_of(ValueKind::QuantityRange, name, std::move(member), member_of(read_range), doc, example);
  key.unit = unit;
  key.bounds = bounds;
  return key;
}

KeySchema quantity_list_key(std::string_view name, MemberAt member, units::Kind unit, const Bounds& bounds,
                            std::string_view doc, std::string_view example) {
  KeySchema key =
      key_of(ValueKind::QuantityList, name, std::move(member), member_of(read_quantity_list), doc, example);
  key.unit = unit;
  key.bounds = bounds;
  return key;
}

KeySchema number_key(std::string_view name, MemberAt member, const Bounds& bounds, std::string_view doc,
                     std::string_view example) {
  KeySchema key = key_of(ValueKind::Number, name, std::move(member), member_of(read_number), doc, example);
  key.bounds = bounds;
  return key;
}

KeySchema count_key(std::string_view name, MemberAt member, const Bounds& bounds, std::string_view doc,
                    std::string_view example) {
  KeySchema key = key_of(ValueKind::Count, name, std::move(member), member_of(read_count), doc, example);
  key.bounds = bounds;
  return key;
}

KeySchema flag_key(std::string_view name, MemberAt member, std::string_view doc, std::string_view example) {
  return key_of(ValueKind::Flag, name, std::move(member), member_of(read_flag), doc, example);
}

KeySchema text_key(std::string_view name, MemberAt member, std::string_view doc, std::string_view example) {
  return key_of(ValueKind::Text, name, std::move(member), member_of(read_text), doc, example);
}

KeySchema text_list_key(std::string_view name, MemberAt member, std::string_view doc,
                        std::string_view example) {
  return key_of(ValueKind::TextList, name, std::move(member), member_of(read_text_list), doc, example);
}

KeySchema date_key(std::string_view name, MemberAt member, std::string_view doc, std::string_view example) {
  return key_of(ValueKind::Date, name, std::move(member), member_of(read_date), doc, example);
}

KeySchema thread_key(std::string_view name, MemberAt member, const Bounds& bounds, std::string_view doc,
                     std::string_view example) {
  KeySchema key = key_of(ValueKind::Thread, name, std::move(member), member_of(read_thread), doc, example);
  key.unit = units::Kind::Length;
  key.bounds = bounds;
  return key;
}

KeySchema stack_key(std::string_view name, MemberAt member, const TableSchema& inner, std::string_view doc,
                    std::string_view example) {
  KeySchema key = key_of(ValueKind::Stack, name, std::move(member), member_of(read_stack), doc, example);
  key.table = &inner;
  return key;
}

KeySchema pieces_key(std::string_view name, MemberAt member, const TableSchema& inner, std::string_view doc,
                     std::string_view example) {
  KeySchema key = key_of(ValueKind::Pieces, name, std::move(member), member_of(read_pieces), doc, example);
  key.table = &inner;
  return key;
}

TableSchema table_of(std::string_view name, std::string_view doc, std::vector<KeySchema> keys,
                     MemberAt origin) {
  TableSchema schema;
  schema.name = name;
  schema.doc = doc;
  schema.keys = std::move(keys);
  schema.place = [origin = std::move(origin)](Reading& reading, const toml::Node& node, void* spec) {
    *static_cast<Origin*>(origin(spec)) = origin_of(reading, node);
  };
  return schema;
}

}  // namespace shimwright::file
