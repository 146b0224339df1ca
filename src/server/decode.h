#pragma once
#include <string_view>

#include "server/workbench.h"

namespace shimwright::server {

/// What a client sent, as the workbench takes it. Any bytes may come in; a fault names the member.
/// Tested: router_test.cc, answers_test.cc, fuzz/http_fuzz.cc
Answer<EditRequest> edit_request(std::string_view body);
Answer<std::vector<Edit>> try_request(std::string_view body);
Answer<std::string> client_request(std::string_view body);
Answer<SaveRequest> save_request(std::string_view body);
Answer<NewJobRequest> new_job_request(std::string_view body);
Answer<BenchRequest> bench_request(std::string_view body);

}  // namespace shimwright::server
