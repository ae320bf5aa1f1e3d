#include <nlohmann/json.hpp>

#include "server/routes/operations.hpp"
#include "shop/json.hpp"

namespace brakewright::server {
namespace {

shop::Finding finding_of(const Call& call, Surroundings& around) {
  const auto wanted = shop::from_json<shop::NewFinding>(call.body());
  shop::Finding finding;
  finding.id = wanted.id;
  finding.job_id = job_id_of(call, around);
  finding.part_id = wanted.part_id;
  finding.kind = wanted.kind;
  finding.judgement = wanted.judgement;
  finding.note = wanted.note;
  return finding;
}

shop::Cut cut_of(const Call& call, Surroundings& around) {
  const auto wanted = shop::from_json<shop::NewCut>(call.body());
  shop::Cut cut;
  cut.id = wanted.id;
  cut.job_id = job_id_of(call, around);
  cut.part_id = wanted.part_id;
  cut.outboard_marks = wanted.outboard_marks;
  cut.inboard_marks = wanted.inboard_marks;
  cut.note = wanted.note;
  return cut;
}

shop::Amendment amendment_of(const Call& call, Surroundings& around) {
  const auto wanted = shop::from_json<shop::NewAmendment>(call.body());
  shop::Amendment amendment;
  amendment.id = wanted.id;
  amendment.job_id = job_id_of(call, around);
  amendment.text = wanted.text;
  amendment.subject_id = wanted.subject_id;
  return amendment;
}

}  // namespace

void add_decision_operations(Operations& operations, Surroundings& around) {
  shop::Shop& shop = around.shop;
  operations["add_finding"] = [&](const Call& call) {
    return json_answer(shop::to_json(shop.add_finding(finding_of(call, around), call.by())));
  };
  operations["withdraw_finding"] = [&](const Call& call) {
    const shop::Uuid job_id = job_id_of(call, around);
    return json_answer(shop::to_json(shop.withdraw_finding(job_id, call.id("finding_id"), call.by())));
  };
  operations["decide"] = [&](const Call& call) {
    const auto wanted = shop::from_json<shop::NewDecision>(call.body());
    return json_answer(
        shop::to_json(shop.decide(wanted.id, job_id_of(call, around), wanted.action, wanted.reason, call.by())));
  };
  operations["record_cut"] = [&](const Call& call) {
    return json_answer(shop::to_json(shop.record_cut(cut_of(call, around), call.by())));
  };
  operations["seal_job"] = [&](const Call& call) {
    return json_answer(shop::to_json(shop.seal(job_id_of(call, around), call.by())));
  };
  operations["amend"] = [&](const Call& call) {
    return json_answer(shop::to_json(shop.amend(amendment_of(call, around), call.by())));
  };
}

}  // namespace brakewright::server
