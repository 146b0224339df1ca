#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

// What comes in as JSON, where the workbench itself takes it in another shape. What each struct and each
// member means: describe_requests.cc

namespace shimwright::server {

struct EditForm {
  std::optional<std::string> set;
  std::optional<std::string> remove;
  std::optional<std::string> insert;
  std::optional<std::string> move;
  std::optional<std::string> drop;
  std::optional<std::string> text;
  std::optional<std::string> typed;
  std::optional<std::int64_t> to;
};

struct EditBody {
  std::int64_t base = 0;
  std::string client;
  std::optional<std::string> note;
  std::optional<bool> again;
  std::vector<EditForm> edits;
};

struct TryBody {
  std::vector<EditForm> edits;
};

struct ClientBody {
  std::string client;
};

struct SaveBody {
  std::string client;
  std::string expect_disk;
  std::optional<bool> over;
};

struct ClickForm {
  std::string adjuster;
  std::int64_t clicks = 0;
};

struct BenchBody {
  std::string client;
  std::optional<double> air_in_rod_chamber;
  std::optional<double> oil_temperature;
  std::optional<std::vector<ClickForm>> clicks;
};

}  // namespace shimwright::server
