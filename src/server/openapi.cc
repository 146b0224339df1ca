#include "server/openapi.h"

#include <nlohmann/json.hpp>

#include "job/document_schema.h"
#include "server_assets.h"

namespace shimwright::server {

std::string openapi_text() {
  using Json = nlohmann::ordered_json;
  const auto bytes = asset("api.json");
  Json api = Json::parse(bytes.begin(), bytes.end());
  Json& schemas = api["components"]["schemas"];
  schemas.update(Json::parse(job::result_schemas("#/components/schemas/")));
  return api.dump(1) + "\n";
}

}  // namespace shimwright::server
