#include "server/routes/refusals.hpp"

#include <spdlog/spdlog.h>

#include <nlohmann/json.hpp>

#include "core/input_error.hpp"
#include "server/doors/doorkeeper.hpp"
#include "shop/json.hpp"
#include "shop/shop.hpp"
#include "shop/store.hpp"

namespace brakewright::server {
namespace {

using Json = nlohmann::ordered_json;

http::Response answer(int status, const InputError& error, const char* extra_name = nullptr, Json extra = nullptr) {
  Json body = {{"code", error.code()}, {"field", error.field()}, {"message", error.what()}};
  if (extra_name != nullptr) body[extra_name] = std::move(extra);
  http::Response response;
  response.status = status;
  response.body = Json({{"error", std::move(body)}}).dump(-1, ' ', false, Json::error_handler_t::replace);
  return response;
}

Json json_of(const std::vector<shop::Doubt>& doubts) {
  Json list = Json::array();
  for (const shop::Doubt& doubt : doubts) {
    list.push_back({{"code", doubt.code},
                    {"message", doubt.message},
                    {"suggestion", doubt.suggestion ? shop::to_json(*doubt.suggestion) : Json(nullptr)}});
  }
  return list;
}

/// Codes by which the shop says that an id is not known to it.
bool is_unknown(const std::string& code) { return code.starts_with("unknown_") || code.starts_with("no_such_"); }

/// What comes of itself when it is asked for again is no conflict.
int status_of(const std::string& code) {
  if (is_unknown(code)) return 404;
  return code == "bench_busy" ? 503 : 409;
}

std::string word_for(shop::StoreError::Cause cause) {
  switch (cause) {
    case shop::StoreError::Cause::full:
      return "store_full";
    case shop::StoreError::Cause::damaged:
      return "store_damaged";
    case shop::StoreError::Cause::newer_version:
      return "store_newer";
    case shop::StoreError::Cause::busy:
      return "store_busy";
    case shop::StoreError::Cause::other:
      break;
  }
  return "store_failed";
}

}  // namespace

http::Response with_refusals(const std::function<http::Response()>& work) {
  try {
    return work();
  } catch (const shop::DoubtfulReading& error) {
    return answer(422, error, "doubts", json_of(error.doubts()));
  } catch (const shop::ConflictError& error) {
    return answer(409, error, "current", Json::parse(error.current_json()));
  } catch (const shop::RuleError& error) {
    return answer(status_of(error.code()), error);
  } catch (const InputError& error) {
    return answer(422, error);
  } catch (const WrongSecret& error) {
    return error.response();
  } catch (const shop::StoreError& error) {
    spdlog::error("the store failed: {}", error.what());
    return answer(503, InputError(word_for(error.cause()), "", error.what()));
  }
}

}  // namespace brakewright::server
