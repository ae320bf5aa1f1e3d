#include "report/content/lathe_work.hpp"

#include <algorithm>
#include <cmath>

#include "report/content/figures.hpp"
#include "report/content/names.hpp"
#include "shop/assess.hpp"
#include "shop/find.hpp"
#include "shop/words.hpp"

namespace brakewright::report {

namespace {

template <class T>
const T* last_of(const std::vector<T>& all, const shop::Part& part) {
  const auto found = std::find_if(all.rbegin(), all.rend(), [&](const T& one) { return one.part_id == part.id; });
  return found == all.rend() ? nullptr : &*found;
}

std::string done_by(const RecordInput& input, const shop::Uuid& person, shop::UtcTime at) {
  return person_name(input, person, false) + ", " + time_figure(at, input.local_clock);
}

std::string figure(double value, int decimals) { return deviation_figure(value, decimals, false); }

/// "3:05"
std::string minutes(double seconds) {
  const auto whole = static_cast<std::int64_t>(std::llround(std::max(seconds, 0.0)));
  const std::string rest = std::to_string(whole % 60);
  return std::to_string(whole / 60) + ":" + (rest.size() < 2 ? "0" : "") + rest;
}

std::string small(double um, Unit unit) {
  return figure(deviation(um, unit), unit == Unit::mm ? 0 : 1) + " " + deviation_unit(unit);
}

void tell_mount(LatheWorkContent& content, const RecordInput& input, const shop::Part& part) {
  content.pieces = {.columns = {{.head = "", .share = 4, .whole = true},
                                {.head = "piece, from the shoulder out", .share = 36, .lines = 2},
                                {.head = "hook", .share = 8, .whole = true},
                                {.head = "why", .share = 72, .lines = 3}},
                    .none = "no stack on record",
                    .more = "more, see the job"};
  content.stack.none = "no stack on record";
  const shop::Mount* mount = last_of(input.file.mounts, part);
  if (mount == nullptr) return;
  content.stack = section_of(input, part, *mount);
  for (std::size_t k = 0; k < mount->piece_ids.size(); ++k) {
    const shop::Piece* piece = shop::find(input.pieces, mount->piece_ids[k]);
    const std::string why = k < mount->why.size() ? mount->why[k] : "";
    content.pieces.rows.push_back({std::to_string(k + 1), piece == nullptr ? "not on record" : piece->name,
                                   piece == nullptr ? "" : piece->hook, why});
  }
  const shop::Lathe* lathe = shop::find(input.lathes, mount->lathe_id);
  std::string note = lathe == nullptr ? ""
                                      : lathe->name + ": nut with a " + std::string(shop::word_of(lathe->nut_thread)) +
                                            "-hand thread. ";
  if (mount->length_mm > 0) {
    note += "Shoulder to nut " + figure(mount->length_mm, 1) + " mm. ";
  } else {
    note += "Against the rules of mounting. ";
  }
  if (!mount->reason.empty()) note += "Reason: " + mount->reason + " ";
  const auto count = std::count_if(input.file.mounts.begin(), input.file.mounts.end(),
                                   [&](const shop::Mount& one) { return one.part_id == part.id; });
  if (count > 1) note += "Mounted " + std::to_string(count) + " times; the last is shown. ";
  content.stack_note = note + done_by(input, mount->by_person_id, mount->at);
}

void tell_proof(LatheWorkContent& content, const RecordInput& input, const shop::Part& part) {
  const Unit unit = input.settings.default_unit;
  for (const shop::MountProof& proof : input.file.mount_proofs) {
    if (proof.part_id != part.id) continue;
    std::string text = proof.kind == shop::ProofKind::scratch ? std::to_string(proof.marks.size()) + " scratch marks: "
                       : proof.trace_um.empty()               ? "Indicator, whole swing: "
                                                              : "Indicator round the turn: ";
    text += std::string(proof.upper_bound ? "at most " : "") + small(proof.runout_um, unit) + " as mounted";
    if (proof.part_runout_um && proof.mount_runout_um) {
      text += "; the " + name_of_kind(part) + "'s own " + small(*proof.part_runout_um, unit) + ", the mount's " +
              small(*proof.mount_runout_um, unit);
    }
    text += proof.goes_on ? "; goes on" : "; taken down again";
    if (proof.runout_um > proof.allowed_um && !proof.reason.empty()) text += ". " + proof.reason;
    content.proof.push_back({text, "costs " + small(proof.costs_um, unit) + " of thickness, allowed " +
                                       small(proof.allowed_um, unit) + "; " +
                                       done_by(input, proof.by_person_id, proof.at)});
  }
}

std::string cut_time(const shop::Pass& pass) {
  return minutes(std::chrono::duration<double>(pass.ended_at - pass.began_at).count());
}

/// What a pass is to leave: thickness of a disc, diameter of a drum.
std::string size_after(const shop::ForeseenPass* planned, Unit unit) {
  if (planned == nullptr) return "–";
  const auto& size_mm = planned->diameter_after_mm ? planned->diameter_after_mm : planned->thickness_after_mm;
  return size_mm ? thickness_figure(*size_mm, unit) : "–";
}

/// One pass: what was planned of it, what was done, or both.
std::vector<std::string> pass_row(const RecordInput& input, std::size_t number, const shop::ForeseenPass* planned,
                                  const shop::Pass* cut) {
  const auto set = [&](auto of_cut, auto of_planned) { return cut != nullptr ? cut->*of_cut : planned->*of_planned; };
  const std::string none = "–";
  std::string outcome = cut == nullptr ? "not cut yet" : cut->outcome == shop::PassOutcome::finished ? "" : "stopped";
  if (cut != nullptr && planned != nullptr &&
      (cut->outboard_marks != planned->outboard_marks || cut->inboard_marks != planned->inboard_marks)) {
    outcome += (outcome.empty() ? "" : ", ") + std::string("planned ") + std::to_string(planned->outboard_marks) +
               " | " + std::to_string(planned->inboard_marks);
  }
  if (cut != nullptr && !cut->note.empty()) outcome += (outcome.empty() ? "" : ", ") + cut->note;
  return {std::to_string(number),
          std::to_string(set(&shop::Pass::outboard_marks, &shop::ForeseenPass::outboard_marks)),
          std::to_string(set(&shop::Pass::inboard_marks, &shop::ForeseenPass::inboard_marks)),
          figure(set(&shop::Pass::rpm, &shop::ForeseenPass::rpm), 0),
          figure(set(&shop::Pass::feed_mm_per_rev, &shop::ForeseenPass::feed_mm_per_rev), 3),
          planned == nullptr ? none : minutes(planned->time_s),
          cut == nullptr ? none : cut_time(*cut),
          planned == nullptr ? none : figure(planned->ra_um, 1),
          size_after(planned, input.settings.default_unit),
          outcome};
}

void tell_passes(LatheWorkContent& content, const RecordInput& input, const shop::Part& part) {
  content.passes = {.columns = {{"pass", 7, Align::right},
                                {"out", 8, Align::right},
                                {"in", 8, Align::right},
                                {"rpm", 11, Align::right},
                                {"feed mm", 11, Align::right},
                                {"plan m:s", 12, Align::right},
                                {"cut m:s", 11, Align::right},
                                {"Ra µm", 9, Align::right},
                                {"leaves " + std::string(name_of(input.settings.default_unit)), 14, Align::right},
                                {.head = "", .share = 26, .lines = 2}},
                    .none = "no passes on record",
                    .more = "more, see the job"};
  const shop::CutPlan* plan = last_of(input.file.cut_plans, part);
  std::vector<const shop::Pass*> cut;
  for (const shop::Pass& pass : input.file.passes) {
    if (pass.part_id == part.id) cut.push_back(&pass);
  }
  const std::size_t planned = plan == nullptr ? 0 : plan->passes.size();
  // A stopped pass is done again, so that the plan's passes answer to the finished ones in their order.
  std::size_t of_plan = 0;
  std::size_t number = 0;
  for (const shop::Pass* pass : cut) {
    const bool of_this = plan != nullptr && pass->plan_id == plan->id && of_plan < planned;
    content.passes.rows.push_back(pass_row(input, ++number, of_this ? &plan->passes[of_plan] : nullptr, pass));
    if (of_this && pass->outcome == shop::PassOutcome::finished) ++of_plan;
  }
  for (; of_plan < planned; ++of_plan) {
    content.passes.rows.push_back(pass_row(input, ++number, &plan->passes[of_plan], nullptr));
  }
  const auto& rows = content.passes.rows;
  if (std::all_of(rows.begin(), rows.end(), [](const auto& row) { return row.back().empty(); })) {
    content.passes.columns.back().share = 1;
  }
  if (plan == nullptr) return;
  const shop::Cut* done = last_of(input.file.cuts, part);
  const shop::Lathe* lathe = shop::find(input.lathes, plan->lathe_id);
  double outboard_um = 0;
  double inboard_um = 0;
  if (done != nullptr) {
    outboard_um = done->dial_um_per_mark;
    inboard_um = done->dial_inboard_um_per_mark.value_or(outboard_um);
  } else if (lathe != nullptr) {
    outboard_um = lathe->dial_um_per_mark;
    inboard_um = lathe->dial_inboard_um_per_mark.value_or(outboard_um);
  }
  for (const shop::ForeseenPass& pass : plan->passes) {
    content.outboard_um.push_back(static_cast<double>(pass.outboard_marks) * outboard_um);
    content.inboard_um.push_back(static_cast<double>(pass.inboard_marks) * inboard_um);
  }
  const Unit unit = input.settings.default_unit;
  content.layers_note = "leaves " + thickness_figure(plan->final_mm, unit) + " " + std::string(name_of(unit));
  const shop::Insert* insert = plan->insert_id ? shop::find(input.inserts, *plan->insert_id) : nullptr;
  content.plan_note = std::string(plan->by_hand ? "Set by hand" : "As worked out") +
                      (insert == nullptr ? "" : ", " + insert->name) + ", " + minutes(plan->time_s) + " of cutting; " +
                      done_by(input, plan->by_person_id, plan->at);
}

void tell_dials(LatheWorkContent& content, const RecordInput& input, const shop::Part& part) {
  for (const shop::PartAssessment& assessed : input.assessment.parts) {
    if (assessed.part_id != part.id || !assessed.dial_check) continue;
    const dials::DialCheck& check = *assessed.dial_check;
    const Unit unit = input.settings.default_unit;
    std::string text = "Both faces: expected " + small(check.sum.expected.um, unit) + " gone";
    if (check.sum.measured) text += ", measured " + small(check.sum.measured->um, unit);
    if (check.sum.difference_um && check.sum.z) {
      text += ", difference " + small(*check.sum.difference_um, unit) + ", " + figure(*check.sum.z, 1) +
              " of its standard uncertainty";
    }
    content.dial_check.push_back({text, ""});
    for (std::size_t k = 0; k < check.findings.size() && k < 2; ++k) {
      const dials::DialFinding& finding = check.findings[k];
      content.dial_check.push_back(
          {spoken(finding.code) + " (p " + probability_figure(finding.p) + "): " + typeset(finding.text),
           finding.code == "agrees" ? "" : typeset(finding.check)});
      if (finding.code == "agrees") break;  // what else might be is nothing to look for then
    }
  }
}

}  // namespace

namespace {

/// A drum is turned by one tool, on the radius.
void keep_one_tool(LatheWorkContent& content) {
  content.first_surface = "inside";
  content.last_surface = "";
  content.passes_note = "dial marks, on the radius; leaves: the diameter";
  content.passes.columns[1].head = "marks";
  content.passes.columns.erase(content.passes.columns.begin() + 2);
  for (auto& row : content.passes.rows) row.erase(row.begin() + 2);
}

}  // namespace

LatheWorkContent lathe_work_of(const RecordInput& input, const shop::Part& part) {
  LatheWorkContent content;
  tell_mount(content, input, part);
  tell_proof(content, input, part);
  tell_passes(content, input, part);
  if (shop::is_drum(part.kind)) keep_one_tool(content);
  tell_dials(content, input, part);
  content.steps = steps_of(input, part);
  content.steps_note = steps_note_of(input, part);
  content.any = !content.pieces.rows.empty() || !content.proof.empty() || !content.passes.rows.empty() ||
                !content.steps.rows.empty();
  return content;
}

}  // namespace brakewright::report
