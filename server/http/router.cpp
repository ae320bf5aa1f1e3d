#include "server/http/router.hpp"

#include <algorithm>
#include <optional>
#include <string_view>

namespace brakewright::http {
namespace {

std::string_view next_segment(std::string_view& rest) {
  rest.remove_prefix(1);
  const std::size_t end = std::min(rest.find('/'), rest.size());
  const std::string_view segment = rest.substr(0, end);
  rest.remove_prefix(end);
  return segment;
}

std::optional<Captures> match(std::string_view pattern, std::string_view path) {
  Captures captures;
  while (!pattern.empty() && !path.empty()) {
    const std::string_view wanted = next_segment(pattern);
    const std::string_view given = next_segment(path);
    if (wanted.starts_with('{')) {
      if (given.empty()) return std::nullopt;
      captures.emplace(wanted.substr(1, wanted.size() - 2), given);
    } else if (wanted != given) {
      return std::nullopt;
    }
  }
  if (!pattern.empty() || !path.empty()) return std::nullopt;
  return captures;
}

void check_parameters(const Route& route, const Request& request) {
  for (const auto& [name, value] : request.query) {
    if (std::find(route.query.begin(), route.query.end(), name) != route.query.end()) continue;
    std::string known;
    for (const auto& accepted : route.query) known += (known.empty() ? "" : ", ") + accepted;
    throw Refusal(422, "unknown_parameter", name,
                  "there is no such parameter here; known: " + (known.empty() ? "none" : known));
  }
}

std::string_view content_type_of(Body body) {
  if (body == Body::json) return "application/json";
  return body == Body::csv ? "text/csv" : "application/pdf";
}

void check_body(const Route& route, const Request& request) {
  if (route.body == Body::none) {
    if (!request.body.empty()) throw Refusal(422, "no_body_taken", "", "nothing is to be sent with this request");
    return;
  }
  const std::string_view wanted = content_type_of(route.body);
  std::string given(request.header("content-type").substr(0, request.header("content-type").find(';')));
  while (given.ends_with(' ')) given.pop_back();
  std::transform(given.begin(), given.end(), given.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  if (given != wanted) {
    throw Refusal(415, "wrong_content_type", "", "this is sent with Content-Type: " + std::string(wanted));
  }
}

}  // namespace

Response Router::answer(const Request& request) const {
  const std::string method = request.method == "HEAD" ? "GET" : request.method;
  std::string allowed;
  for (const Route& route : routes_) {
    const auto captures = match(route.pattern, request.path);
    if (!captures) continue;
    if (route.method != method) {
      allowed += (allowed.empty() ? "" : ", ") + route.method + (route.method == "GET" ? ", HEAD" : "");
      continue;
    }
    check_parameters(route, request);
    check_body(route, request);
    return route.handle(request, *captures);
  }
  if (!allowed.empty()) {
    throw Refusal(405, "wrong_method", "", "this address takes " + allowed, {{"Allow", allowed}});
  }
  throw Refusal(404, "no_such_address", "", "there is nothing at this address");
}

}  // namespace brakewright::http
