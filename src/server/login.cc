#include "server/login.h"

#include <algorithm>

#include <fmt/core.h>

#include "server/api_fault.h"
#include "server/encode.h"
#include "server/target.h"

namespace shimwright::server {
namespace {

constexpr std::size_t kMostTries = 5;       // right or wrong ...
constexpr std::int64_t kWithin_ms = 60000;  // ... in this time, from all clients together

constexpr const char* kCookieName = "shimwright";

constexpr const char* kForm = R"(<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Shimwright workbench</title>
<main>
<h1>Shimwright workbench</h1>
<form method="post" action="/login">
<p><label for="passphrase">The passphrase that was set with --lan</label></p>
<p><input id="passphrase" name="passphrase" type="password" autocomplete="current-password" autofocus required>
<button>Open</button></p>
<p role="alert">{}</p>
</form>
</main>
</html>
)";

Response page(int status, const char* words) {
  Response response{status, "text/html; charset=utf-8", fmt::format(kForm, words)};
  // without any referrer a browser sends a form with "Origin: null", which is refused
  response.headers.emplace_back("Referrer-Policy", "same-origin");
  return response;
}

bool holds_cookie(std::string_view header, std::string_view wanted) {
  while (!header.empty()) {
    std::string_view part = header.substr(0, header.find(';'));
    header.remove_prefix(std::min(part.size() + 1, header.size()));
    while (part.starts_with(' ')) part.remove_prefix(1);
    const std::size_t equals = part.find('=');
    if (equals != std::string_view::npos && part.substr(0, equals) == kCookieName &&
        same_secret(part.substr(equals + 1), wanted))
      return true;
  }
  return false;
}

}  // namespace

Login::Login(std::string passphrase, std::string cookie, std::function<std::int64_t()> now_ms)
    : passphrase_(std::move(passphrase)), cookie_(std::move(cookie)), now_ms_(std::move(now_ms)) {}

bool Login::may_try() {
  const std::lock_guard lock(mutex_);
  const std::int64_t now = now_ms_();
  while (!tries_.empty() && now - tries_.front() > kWithin_ms) tries_.pop_front();
  if (tries_.size() >= kMostTries) return false;
  tries_.push_back(now);
  return true;
}

Response Login::tried(const Request& request) {
  if (!request.content_type.starts_with("application/x-www-form-urlencoded"))
    return page(415, "Use the form on this page.");
  if (!may_try()) return page(429, "Too many tries. Wait a minute.");
  const auto form = parse_form(request.body);
  const auto given = form ? form->find("passphrase") : std::map<std::string, std::string>::const_iterator{};
  if (!form || given == form->end() || !same_secret(given->second, passphrase_))
    return page(401, "That is not the passphrase.");
  Response response{303, "text/plain", ""};
  response.headers.emplace_back("Location", "/");
  response.headers.emplace_back(
      "Set-Cookie", fmt::format("{}={}; HttpOnly; SameSite=Strict; Path=/", kCookieName, cookie_));
  return response;
}

std::optional<Response> Login::answer(const Request& request, const std::string& path) {
  if (path == "/login" && request.method == "POST") return tried(request);
  if (holds_cookie(request.cookie, cookie_)) {
    if (path != "/login") return std::nullopt;
    Response response{303, "text/plain", ""};
    response.headers.emplace_back("Location", "/");
    return response;
  }
  if (path.starts_with("/api/")) {
    return answer_of({401, "no_passphrase", "This workbench needs its passphrase.",
                      "Open the page of the workbench and enter the passphrase."});
  }
  return page(401, "");
}

}  // namespace shimwright::server
