#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "server/http/message.hpp"

namespace brakewright::http {

/// What a route takes as its body. A body of another kind is refused with 415: pages of other sites can send forms
/// and plain text without asking, but none of these.
enum class Body { none, json, csv, pdf };

/// The parts of the path that stand in braces in the pattern, by name.
using Captures = std::map<std::string, std::string>;

struct Route {
  std::string method;
  std::string pattern;             ///< "/jobs/{job_id}/readings"; a name in braces stands for one whole segment
  std::vector<std::string> query;  ///< names of the parameters that are understood; others are refused
  Body body = Body::none;
  std::function<Response(const Request&, const Captures&)> handle;
};

/// Finds the route of a request and holds the request to what the route takes.
class Router {
 public:
  void add(Route route) { routes_.push_back(std::move(route)); }

  /// HEAD is answered as GET (the content is left out when it is sent).
  /// @throws Refusal 404 "no_such_address", 405 "wrong_method" with an Allow header, 415 "wrong_content_type",
  ///         422 "unknown_parameter" or "no_body_taken"; and whatever the route throws
  Response answer(const Request& request) const;

  const std::vector<Route>& routes() const { return routes_; }

 private:
  std::vector<Route> routes_;
};

}  // namespace brakewright::http
