#include "server/http/message.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <nlohmann/json.hpp>

namespace brakewright::http {
namespace {

constexpr std::string_view kAllowNothing =
    "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

std::string_view reason_of(int status) {
  switch (status) {
    case 200:
      return "OK";
    case 304:
      return "Not Modified";
    case 308:
      return "Permanent Redirect";
    case 400:
      return "Bad Request";
    case 401:
      return "Unauthorized";
    case 403:
      return "Forbidden";
    case 404:
      return "Not Found";
    case 405:
      return "Method Not Allowed";
    case 408:
      return "Request Timeout";
    case 409:
      return "Conflict";
    case 411:
      return "Length Required";
    case 413:
      return "Content Too Large";
    case 415:
      return "Unsupported Media Type";
    case 421:
      return "Misdirected Request";
    case 422:
      return "Unprocessable Content";
    case 429:
      return "Too Many Requests";
    case 431:
      return "Request Header Fields Too Large";
    case 500:
      return "Internal Server Error";
    case 503:
      return "Service Unavailable";
    default:
      return "Other";
  }
}

/// A value that cannot end its header line early.
std::string one_line(std::string_view value) {
  std::string line;
  std::copy_if(value.begin(), value.end(), std::back_inserter(line),
               [](char c) { return static_cast<unsigned char>(c) >= ' ' || c == '\t'; });
  return line;
}

}  // namespace

std::string_view Request::header(std::string_view name) const {
  const auto found = std::find_if(headers.begin(), headers.end(), [&](const auto& h) { return h.first == name; });
  return found == headers.end() ? std::string_view() : std::string_view(found->second);
}

Response response_of(const Refusal& refusal) {
  const nlohmann::ordered_json body = {
      {"error", {{"code", refusal.code()}, {"field", refusal.field()}, {"message", refusal.what()}}}};
  Response response;
  response.status = refusal.status();
  response.headers = refusal.headers();
  response.body = body.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
  return response;
}

Response internal_error(const std::string& request_id) {
  return response_of(Refusal(500, "internal", "",
                             "this is a fault of the program; nothing was lost, what was entered may be sent again. "
                             "The log names this request " +
                                 request_id));
}

std::string head_of(const Response& response, const std::string& request_id, bool keep_alive,
                    std::optional<std::size_t> length) {
  std::string head;
  auto out = std::back_inserter(head);
  fmt::format_to(out, "HTTP/1.1 {} {}\r\n", response.status, reason_of(response.status));
  if (response.status != 304) fmt::format_to(out, "Content-Type: {}\r\n", one_line(response.content_type));
  if (length) fmt::format_to(out, "Content-Length: {}\r\n", *length);
  fmt::format_to(out, "Connection: {}\r\n", keep_alive ? "keep-alive" : "close");
  fmt::format_to(out, "Cache-Control: {}\r\n", one_line(response.cache_control.value_or("no-store")));
  fmt::format_to(out, "Content-Security-Policy: {}\r\n",
                 one_line(response.content_policy.value_or(std::string(kAllowNothing))));
  head +=
      "X-Content-Type-Options: nosniff\r\n"
      "Referrer-Policy: no-referrer\r\n"
      "X-Frame-Options: DENY\r\n"
      "Cross-Origin-Resource-Policy: same-origin\r\n";
  fmt::format_to(out, "X-Request-Id: {}\r\n", one_line(request_id));
  for (const auto& [name, value] : response.headers) fmt::format_to(out, "{}: {}\r\n", name, one_line(value));
  return head + "\r\n";
}

}  // namespace brakewright::http
