#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <string_view>

#include "server/http/router.hpp"
#include "shop/uuid.hpp"

namespace brakewright::server {

using Json = nlohmann::ordered_json;

/// One call of an operation of the API. Its parameters, in path and query alike, have been held to their descriptions
/// before an operation sees it: those that are required are there, numbers are numbers within their bounds.
class Call {
 public:
  Call(const http::Request& request, const http::Captures& captures) : request_(request), captures_(captures) {}

  std::optional<std::string> text(std::string_view name) const;
  std::optional<std::int64_t> number(std::string_view name) const;
  std::optional<double> decimal(std::string_view name) const;
  bool flag(std::string_view name) const;  ///< false when it is not there
  std::optional<shop::Uuid> optional_id(std::string_view name) const;

  /// A parameter that the description requires. @throws InputError "missing"
  std::string needed_text(std::string_view name) const;
  shop::Uuid id(std::string_view name) const;

  /// Who does it.
  shop::Uuid by() const { return id("by_person_id"); }

  /// The body. @throws InputError  as calc/parse_json.hpp says
  Json body() const;

  const http::Request& request() const { return request_; }

 private:
  const http::Request& request_;
  const http::Captures& captures_;
};

/// As `x-right` of an operation in the API's description says it.
enum class Right {
  anyone,  ///< signed in or not
  member,  ///< whoever is signed in, visitors too
  self,    ///< whoever is signed in, with their own `person_id`; who leads, with any or none
  worker,  ///< students, on a job of their own (they opened it or work on it, or nobody does); who leads, on all
  teacher  ///< teachers and lead hands
};

/// @throws std::logic_error  for another word
Right right_named(const std::string& word);

/// An operation as the description has it.
struct Described {
  std::string id;
  Right right = Right::teacher;
  bool writes = false;    ///< by its method
  bool signs = false;     ///< takes `by_person_id`
  bool of_a_job = false;  ///< has `job_id` in its path
  bool signable = false;  ///< `x-signable`: a teacher may sign for it at a student's tablet
};

/// Lets `work` be done for this call, or refuses.
using Gate = std::function<http::Response(const Described&, const Call&, const std::function<http::Response()>& work)>;

using Operation = std::function<http::Response(const Call&)>;

/// By the operationId of the description.
using Operations = std::map<std::string, Operation, std::less<>>;

/// Makes a route of every operation of an OpenAPI description; the description alone says where it is, what its
/// parameters are and what it takes.
/// @param prefix  put before each path, "/api/v1"
/// @param gate    passed by every call before its parameters are looked at
/// @throws std::logic_error  when an operation is described and not there, there and not described, or has no right
http::Router router_of(const Json& description, const std::string& prefix, const Operations& operations,
                       const Gate& gate);

http::Response json_answer(const Json& body);

}  // namespace brakewright::server
