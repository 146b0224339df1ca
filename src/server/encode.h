#pragma once
#include <string>

namespace shimwright::file {
struct PartsSpec;
}
namespace shimwright::job {
struct StackView;
}

namespace shimwright::server {

struct ApiFault;
struct Session;
struct DiskText;
struct JobView;
struct Trial;
struct JobEvent;
struct Response;
struct RunProgress;
struct DiskConflict;

/// What the workbench answers as JSON; describe_answers.cc says what each member means. Text that is no UTF-8
/// comes out with U+FFFD in its place. Tested: answers_test.cc, against the served schemas
std::string to_json(const ApiFault& fault);
std::string to_json(const Session& session);
std::string to_json(const DiskText& disk);
std::string to_json(const JobView& view);
std::string to_json(const Trial& trial);
std::string to_json(const JobEvent& event);
std::string to_json(const RunProgress& progress);
std::string to_json(const file::PartsSpec& parts);
std::string to_json(const job::StackView& view);
std::string run_json(const std::string& run);
std::string conflict_json(const ApiFault& fault, const JobView& present);
std::string conflict_json(const ApiFault& fault, const DiskConflict& conflict);

/// The answer to a request that was not done.
Response answer_of(const ApiFault& fault);

/// Every key of a job file, as GET /api/schema gives it.
std::string schema_json();

}  // namespace shimwright::server
