#include "server/openapi.h"

#include <nlohmann/json.hpp>

#include "document/document_schema.h"
#include "server_assets.h"

namespace shimwright::server {

std::string openapi_text() {
  using Json = nlohmann::ordered_json;
  const auto bytes = asset("api.json");
  Json api = Json::parse(bytes.begin(), bytes.end());
  Json& schemas = api["components"]["schemas"];
  schemas.update(Json::parse(document::result_schemas("#/components/schemas/")));
  return api.dump(1) + "\n";
}

}  // namespace shimwright::server
