#include "server/routes/operations.hpp"
#include "server/routes/put_operation.hpp"

namespace brakewright::server {

using shop::Uuid;

void add_bench_operations(Operations& operations, Surroundings& around) {
  shop::Shop& shop = around.shop;
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
  operations["record_step"] =
      post_to_job<shop::NewBenchStep>(around, [&](const Uuid& job, const shop::NewBenchStep& wanted, const Uuid& by) {
        return shop.record_step(job, wanted, by);
      });
}

}  // namespace brakewright::server
