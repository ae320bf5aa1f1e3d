#include "server/routes/bench_answers.hpp"

#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "shop/json.hpp"
#include "shop/times.hpp"

namespace brakewright::server {

using calc::or_null;
using Json = nlohmann::ordered_json;

namespace {

Json json_of(const std::optional<shop::PlanRefusal>& refusal) {
  if (!refusal) return nullptr;
  return {{"error", {{"code", refusal->code}, {"field", refusal->field}, {"message", refusal->message}}}};
}

Json json_of(const shop::PlanWarning& warning) {
  return {{"code", warning.code},
          {"text", warning.text},
          {"pass", warning.pass},
          {"side", warning.side.empty() ? Json(nullptr) : Json(warning.side)}};
}

}  // namespace

Json answer_of(const shop::StackAdvice& advice) {
  Json stacks = Json::array();
  for (const mount::Stack& stack : advice.answer.stacks) {
    stacks.push_back({{"pieces", stack.pieces}, {"length_mm", stack.length_mm}, {"q", stack.q}, {"why", stack.why}});
  }
  Json nearest = Json::array();
  for (const mount::Miss& miss : advice.answer.nearest) {
    nearest.push_back({{"rule", miss.rule}, {"miss_mm", miss.miss_mm}, {"text", miss.text}});
  }
  return {{"missing", advice.missing}, {"stacks", std::move(stacks)}, {"nearest", std::move(nearest)}};
}

Json answer_of(const shop::PlanAdvice& advice) {
  Json passes = Json::array(), warnings = Json::array();
  for (const shop::ForeseenPass& pass : advice.passes) passes.push_back(shop::to_json(pass));
  for (const shop::PlanWarning& warning : advice.warnings) warnings.push_back(json_of(warning));
  return {{"missing", advice.missing},
          {"refusal", json_of(advice.refusal)},
          {"needed_outboard_um", or_null(advice.needed_outboard_um)},
          {"needed_inboard_um", or_null(advice.needed_inboard_um)},
          {"start_min_mm", or_null(advice.start_min_mm)},
          {"start_max_mm", or_null(advice.start_max_mm)},
          {"u_start_min_um", or_null(advice.u_start_min_um)},
          {"touch_mm", or_null(advice.touch_mm)},
          {"machine_to_mm", or_null(advice.machine_to_mm)},
          {"passes", std::move(passes)},
          {"time_s", advice.time_s},
          {"final_mm", or_null(advice.final_mm)},
          {"pair_mm", or_null(advice.pair_mm)},
          {"warnings", std::move(warnings)},
          {"basis", advice.basis.empty() ? Json(nullptr) : Json(advice.basis)}};
}

Json answer_of(const shop::LatheRecord& record) {
  Json jobs = Json::array();
  for (const shop::FinishedCut& cut : record.cuts) {
    jobs.push_back({{"job_id", shop::to_text(cut.job_id)},
                    {"job_number", cut.job_number},
                    {"part_id", shop::to_text(cut.part_id)},
                    {"at", shop::to_text(cut.sealed_at)},
                    {"outboard_marks", cut.cut.outboard_marks},
                    {"inboard_marks", cut.cut.inboard_marks},
                    {"settings", cut.cut.settings},
                    {"depth_um", cut.cut.depth.um},
                    {"u_depth_um", cut.cut.depth.u_um},
                    {"mount_runout_um", or_null(cut.mount_runout_um)}});
  }
  dials::LatheStudy study = record.study.value_or(dials::LatheStudy{});
  study.jobs = record.jobs;  // not the parts that were cut in them
  study.needs = record.needs;
  Json mount;
  if (record.mount) mount = {{"jobs", record.mount->jobs}, {"rms_um", record.mount->rms_um}};
  return {{"lathe_id", shop::to_text(record.lathe_id)},
          {"jobs", std::move(jobs)},
          {"study", calc::to_json(study)},
          {"mount", std::move(mount)}};
}

}  // namespace brakewright::server
