// What a client may send, as far as this project reads it itself: the target with its query, the bodies of
// the writes, and the edits in them done to a job. The first byte chooses. HTTP's own framing is read by
// Boost.Beast.
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "base/check.h"
#include "server/decode.h"
#include "server/edits.h"
#include "server/target.h"

namespace {

using namespace shimwright::server;

const std::string kJob = R"(format = 1
title  = "Stack"   # keep me

[stack]
seat  = "18 mm"
clamp = "9 mm"
discs = [
  "3 x 19 x 0.15 mm",   # face
  "1 x 14 x 0.20 mm",
]
)";

void read_target(std::string_view bytes) {
  const auto target = parse_target(bytes);
  if (!target) return;
  SW_CHECK(target->path.starts_with('/') && target->path.find("/.") == std::string::npos, target->path);
}

void do_edits(const std::vector<Edit>& edits) {
  const auto next = edited(kJob, {}, edits);
  if (!next) return;
  // done again to what came of it, with its drafts: what a second tab does
  const auto again = edited(next->text, plain(next->drafts), edits);
  means_the_same(edits, kJob, next->text);
  note_of(edits);
  for (const FaultyDraft& faulty : next->drafts) SW_CHECK(!faulty.diagnostic.what.empty(), faulty.draft.path);
  static_cast<void>(again);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const std::string_view bytes(reinterpret_cast<const char*>(data) + 1, size - 1);
  switch (data[0] % 6) {
    case 0:
      read_target(bytes);
      break;
    case 1:
      if (const auto request = edit_request(bytes)) do_edits(request->edits);
      break;
    case 2:
      if (const auto edits = try_request(bytes)) do_edits(*edits);
      break;
    case 3:
      static_cast<void>(save_request(bytes));
      break;
    case 4:
      static_cast<void>(new_job_request(bytes));
      static_cast<void>(bench_request(bytes));
      break;
    default:
      static_cast<void>(client_request(bytes));
      static_cast<void>(parse_form(bytes));
  }
  return 0;
}
