#pragma once
#include <string>

namespace shimwright::server {

/// The description of the API as OpenAPI 3.1, made from the requests in api_paths.h and from the descriptions
/// of what they take and answer. Tested: openapi_test.cc; answers_test.cc holds real answers to it
std::string openapi_text();

}  // namespace shimwright::server
