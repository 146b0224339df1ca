#pragma once
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "document/document_describe.h"

namespace shimwright::server {

/// A part of a path, of a query or of a header that a request may bring along.
struct Parameter {
  std::string_view name;
  std::string_view in;  // "path", "query" or "header"
  bool required = false;
  std::string_view doc{};                 // empty where the words say it all
  std::string_view type = "string";       // "string", "integer" or "number"
  std::vector<std::string_view> words{};  // the only ones it takes
  std::string_view pattern{};
  std::string_view shared{};  // its name in the description when several requests have it
};

/// What comes back.
struct AnswerForm {
  std::string_view status;  // "200"
  std::string_view doc;
  std::vector<std::string_view> media = {"application/json"};
  const document::StructInfo* body = nullptr;  // null: no JSON, or any JSON object
  bool is_list = false;                        // of such bodies
};

/// One request that the workbench answers.
struct ApiPath {
  std::string_view path;
  std::string_view method;  // "get" or "post"
  std::string_view summary;
  std::vector<const Parameter*> parameters{};
  const document::StructInfo* request = nullptr;  // the body of a post
  std::vector<AnswerForm> answers{};
  bool may_fail = true;  // with an Error
};

/// All requests, those of one path behind one another.
std::span<const ApiPath> api_paths();

/// The parameters that several requests have.
std::span<const Parameter* const> shared_parameters();

}  // namespace shimwright::server
