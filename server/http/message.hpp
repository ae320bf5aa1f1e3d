#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// What comes in and what goes out over HTTP/1.1, as plain data. Nothing here knows what the program is about.
namespace brakewright::http {

using Headers = std::vector<std::pair<std::string, std::string>>;

struct Request {
  std::string id;                            ///< 16 hex digits, told to the client and to the log
  std::string method;                        ///< "GET", "POST", ...
  std::string path;                          ///< percent-decoded, begins with "/", no "." or ".." within
  std::map<std::string, std::string> query;  ///< percent-decoded; each name once
  Headers headers;                           ///< names in lower case
  std::string body;
  bool secure = false;         ///< came over TLS
  std::string local_address;   ///< address of this machine that the client reached, without port
  std::string remote_address;  ///< of the client, without port

  /// The value of that header, empty when it is not there. @param name  in lower case
  std::string_view header(std::string_view name) const;
};

/// Where a stream of events begins.
struct EventsAfter {
  std::optional<std::int64_t> id;  ///< the last one that the client has; absent: from now on
};

struct Response {
  int status = 200;
  std::string content_type = "application/json";
  Headers headers;
  std::string body;
  std::string_view fixed_body;                ///< in place of `body`, for bytes that live as long as the program
  std::optional<EventsAfter> events;          ///< in place of a body: keep the connection as a stream of events
  std::optional<std::string> content_policy;  ///< Content-Security-Policy; one that allows nothing when absent
  std::optional<std::string> cache_control;   ///< "no-store" when absent

  std::string_view content() const { return fixed_body.data() != nullptr ? fixed_body : std::string_view(body); }
};

/// A request that is answered with an error; every failure leaves in this one shape.
class Refusal : public std::runtime_error {
 public:
  /// @param status   HTTP status, 400 or more
  /// @param code     stable word for programs
  /// @param field    path of the value at fault, empty for the whole
  /// @param message  one sentence for people: what was wrong, and what is accepted
  Refusal(int status, std::string code, std::string field, const std::string& message, Headers headers = {})
      : std::runtime_error(message),
        status_(status),
        code_(std::move(code)),
        field_(std::move(field)),
        headers_(std::move(headers)) {}

  int status() const { return status_; }
  const std::string& code() const { return code_; }
  const std::string& field() const { return field_; }
  const Headers& headers() const { return headers_; }

 private:
  int status_;
  std::string code_;
  std::string field_;
  Headers headers_;
};

/// `{"error":{"code","field","message"}}` with the refusal's status and headers.
Response response_of(const Refusal& refusal);

/// The answer to a failure of our own: says nothing of the inside, names the request so that the log can be searched.
Response internal_error(const std::string& request_id);

/// Status line and headers, the blank line included; always with the headers that keep a browser from guessing,
/// framing, caching and telling on. @param length  of the content, absent for a stream
std::string head_of(const Response& response, const std::string& request_id, bool keep_alive,
                    std::optional<std::size_t> length);

}  // namespace brakewright::http
