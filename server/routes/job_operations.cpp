#include <nlohmann/json.hpp>

#include "core/input_error.hpp"
#include "server/routes/operations.hpp"
#include "shop/json.hpp"
#include "shop/words.hpp"

namespace brakewright::server {
namespace {

http::Response open_job(const Call& call, Surroundings& around) {
  const auto wanted = shop::from_json<shop::NewJob>(call.body());
  const shop::JobFile file = around.shop.open_job(wanted.job, wanted.parts, call.by());
  return json_answer(answer_of(file, around.shop.last_seq()));
}

http::Response open_practice_job(const Call& call, Surroundings& around) {
  if (!around.open_practice_job) throw http::Refusal(404, "no_practice_job", "", "this program has no practice job");
  const shop::JobFile file = around.open_practice_job(call.by());
  return json_answer(answer_of(file, around.shop.last_seq()));
}

http::Response show_job(const Call& call, Surroundings& around) {
  const std::int64_t seq = around.shop.last_seq();
  return json_answer(answer_of(job_file_of(call, around), seq));
}

http::Response change_job(const Call& call, Surroundings& around) {
  const auto wanted = shop::from_json<shop::Job>(call.body());
  check_same(job_id_of(call, around), wanted.id, "id");
  return json_answer(shop::to_json(around.shop.change_job(wanted, call.by())));
}

http::Response change_part(const Call& call, Surroundings& around) {
  auto wanted = shop::from_json<shop::Part>(call.body());
  check_same(call.id("part_id"), wanted.id, "id");
  wanted.job_id = job_id_of(call, around);
  return json_answer(shop::to_json(around.shop.change_part(wanted, call.by())));
}

http::Response put_plan(const Call& call, Surroundings& around) {
  const auto wanted = shop::from_json<shop::MeasuringPlan>(call.body());
  check_same(call.id("part_id"), wanted.part_id, "part_id");
  if (call.needed_text("stage") != shop::word_of(wanted.stage)) {
    throw InputError("not_the_same", "stage", "this differs from the stage in the address");
  }
  return json_answer(shop::to_json(around.shop.put_plan(wanted, call.by())));
}

}  // namespace

void add_job_operations(Operations& operations, Surroundings& around) {
  operations["jobs"] = [&](const Call& call) { return json_answer(board_of(call, around)); };
  operations["open_job"] = [&](const Call& call) { return open_job(call, around); };
  operations["open_practice_job"] = [&](const Call& call) { return open_practice_job(call, around); };
  operations["job"] = [&](const Call& call) { return show_job(call, around); };
  operations["change_job"] = [&](const Call& call) { return change_job(call, around); };
  operations["change_part"] = [&](const Call& call) { return change_part(call, around); };
  operations["put_plan"] = [&](const Call& call) { return put_plan(call, around); };
  operations["assessment"] = [&](const Call& call) { return json_answer(assessment_of(call, around)); };
}

}  // namespace brakewright::server
