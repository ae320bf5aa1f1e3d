#include <nlohmann/json.hpp>

#include "api/description.hpp"
#include "core/input_error.hpp"
#include "server/routes/operations.hpp"
#include "shop/json.hpp"

namespace brakewright::server {
namespace {

constexpr std::size_t kLongestJobNumber = 12;

bool is_number(const std::string& text) {
  return !text.empty() && text.size() <= kLongestJobNumber && text.find_first_not_of("0123456789") == text.npos;
}

http::Response description_as_written(const http::Request&, const http::Captures&) {
  http::Response response;
  response.content_type = "application/yaml";
  response.fixed_body = api::openapi_yaml();
  return response;
}

}  // namespace

http::Router routes_of(Surroundings& around) {
  Operations operations;
  add_shop_operations(operations, around);
  add_iron_operations(operations, around);
  add_bench_operations(operations, around);
  add_car_operations(operations, around);
  add_job_operations(operations, around);
  add_reading_operations(operations, around);
  add_decision_operations(operations, around);
  add_record_operations(operations, around);
  add_exchange_operations(operations, around);
  add_permit_operations(operations, around);
  add_class_operations(operations, around);
  add_competence_operations(operations, around);
  add_queue_operations(operations, around);
  add_week_operations(operations, around);
  add_study_operations(operations, around);
  add_practice_operations(operations, around);
  add_door_operations(operations, around);
  add_event_operations(operations, around);
  add_calc_operations(operations);
  operations["openapi"] = [](const Call&) { return json_answer(api::openapi()); };

  http::Router router =
      router_of(api::openapi(), "/api/v1", operations,
                [&around](const Described& operation, const Call& call, const std::function<http::Response()>& work) {
                  return around.keeper->answer(operation, call, work);
                });
  http::Route written;
  written.method = "GET";
  written.pattern = "/api/openapi.yaml";
  written.handle = description_as_written;
  router.add(std::move(written));
  return router;
}

shop::JobFile job_file_of(const Call& call, Surroundings& around) { return job_file_of(call, around.shop); }

shop::JobFile job_file_of(const Call& call, shop::Shop& shop) {
  const std::string text = call.needed_text("job_id");
  if (is_number(text)) return shop.job_file_by_number(std::stoll(text));
  return shop.job_file(call.id("job_id"));
}

shop::Uuid job_id_of(const Call& call, Surroundings& around) {
  if (is_number(call.needed_text("job_id"))) return job_file_of(call, around).job.id;
  return call.id("job_id");
}

Json answer_of(const shop::JobFile& file, std::int64_t seq) {
  Json json = shop::to_json(file);
  json["seq"] = seq;
  return json;
}

void check_same(const shop::Uuid& in_path, const shop::Uuid& in_body, const std::string& field) {
  if (in_path != in_body) throw InputError("not_the_same", field, "this differs from the id in the address");
}

}  // namespace brakewright::server
