#include <nlohmann/json.hpp>

#include "server/routes/bench_answers.hpp"
#include "server/routes/operations.hpp"
#include "server/routes/put_operation.hpp"

namespace brakewright::server {

using shop::Uuid;

namespace {

constexpr std::int64_t kStacks = 3;

}  // namespace

void add_bench_operations(Operations& operations, Surroundings& around) {
  shop::Shop& shop = around.shop;
  operations["stacks"] = [&](const Call& call) {
    const auto count = static_cast<std::size_t>(call.number("count").value_or(kStacks));
    return json_answer(answer_of(shop.stacks(job_id_of(call, around), call.id("part_id"), count)));
  };
  operations["plan"] = [&](const Call& call) {
    const Uuid job_id = job_id_of(call, around);
    return json_answer(
        answer_of(shop.plan(job_id, call.id("part_id"), call.optional_id("insert_id"), call.flag("own_size"))));
  };
  operations["foresight"] = [&](const Call& call) {
    const Uuid job_id = job_id_of(call, around);
    const auto wanted = shop::from_json<shop::NewForesight>(call.body());
    return json_answer(answer_of(shop.foresight(job_id, call.id("part_id"), wanted)));
  };
  operations["settle_plan"] =
      post_to_job<shop::NewCutPlan>(around, [&](const Uuid& job, const shop::NewCutPlan& wanted, const Uuid& by) {
        return shop.settle_plan(job, wanted, by);
      });
  operations["lathe_study"] = [&](const Call& call) {
    return json_answer(answer_of(shop.lathe_study(call.id("lathe_id"))));
  };
  operations["record_mount"] =
      post_to_job<shop::NewMount>(around, [&](const Uuid& job, const shop::NewMount& wanted, const Uuid& by) {
        return shop.record_mount(job, wanted, by);
      });
  operations["record_proof"] =
      post_to_job<shop::NewMountProof>(around, [&](const Uuid& job, const shop::NewMountProof& wanted, const Uuid& by) {
        return shop.record_proof(job, wanted, by);
      });
  operations["record_pass"] = post_to_job<shop::NewPass>(
      around,
      [&](const Uuid& job, const shop::NewPass& wanted, const Uuid& by) { return shop.record_pass(job, wanted, by); });
  operations["record_refit"] =
      post_to_job<shop::NewRefit>(around, [&](const Uuid& job, const shop::NewRefit& wanted, const Uuid& by) {
        return shop.record_refit(job, wanted, by);
      });
  operations["record_step"] =
      post_to_job<shop::NewBenchStep>(around, [&](const Uuid& job, const shop::NewBenchStep& wanted, const Uuid& by) {
        return shop.record_step(job, wanted, by);
      });
}

}  // namespace brakewright::server
