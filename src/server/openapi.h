#pragma once
#include <string>

namespace shimwright::server {

/// The description of the API as OpenAPI 3.1: api.json of this folder, with the schemas of the result
/// document put in. Tested: openapi_test.cc; answers_test.cc holds real answers to it
std::string openapi_text();

}  // namespace shimwright::server
