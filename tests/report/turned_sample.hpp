#pragma once

#include "tests/report/job_sample.hpp"

/// A job that was turned on the lathe. All invented.
namespace brakewright::report::sample {

inline shop::Piece piece(int number, const std::string& name, shop::PieceKind kind, double length_mm) {
  shop::Piece made{.id = id_of(20, number), .name = name, .kind = kind, .hook = "B" + std::to_string(number)};
  made.bore = {25'400'000};
  made.length = {static_cast<std::int64_t>(length_mm * 1e6)};
  return made;
}

/// A hubless pair that was cut on the lathe; the left rotor in two passes, the second of them stopped and done again.
inline WholeJob turned_job(int rotors = 2) {
  WholeJob whole = measured_job(8, 1, rotors, true);
  shop::Lathe& lathe = whole.lathes[0];
  lathe.arbor_diameter = Length{25'400'000};
  lathe.thread_start = Length{100'000'000};
  lathe.tip = Length{180'000'000};
  shop::Piece deep = piece(1, "deep clamp", shop::PieceKind::clamp, 50);
  deep.ring_inner = Length{86'000'000};
  deep.ring_outer = Length{128'000'000};
  deep.cup_depth = Length{42'000'000};
  deep.cup_bore = Length{80'000'000};
  shop::Piece spring = piece(2, "spring", shop::PieceKind::spring, 14);
  spring.solid = Length{14'000'000};
  spring.free = Length{52'000'000};
  shop::Piece cone = piece(3, "cone", shop::PieceKind::cone, 28);
  cone.small = Length{50'000'000};
  cone.large = Length{72'000'000};
  shop::Piece flat = deep;
  flat.id = id_of(20, 4);
  flat.name = "flat clamp";
  flat.length = Length{30'000'000};
  flat.cup_depth.reset();
  flat.cup_bore.reset();
  shop::Piece damping = piece(5, "damping spacer", shop::PieceKind::spacer, 32);
  damping.damping = true;
  whole.pieces = {deep, spring, cone, flat, damping, piece(6, "nut", shop::PieceKind::nut, 24)};
  whole.inserts = {{.id = id_of(21, 1), .name = "tip 1, radius 0.4"}};
  for (shop::Part& part : whole.file.parts) {
    part.seat.bore = typed("61");
    part.seat.flange = typed("7");
    part.seat.flat_inner = typed("80");
    part.seat.flat_outer = typed("138");
    shop::Mount mount{.id = id_of(22, static_cast<int>(whole.file.mounts.size())),
                      .job_id = whole.file.job.id,
                      .part_id = part.id,
                      .lathe_id = lathe.id};
    for (const shop::Piece& one : whole.pieces) mount.piece_ids.push_back(one.id);
    mount.length_mm = 119;
    mount.q = {0.5};
    mount.why = {"fits the flat", "presses the cone", "half way up", "same ring", "damps", "holds it"};
    mount.by_person_id = id_of(2, 1);
    mount.at = at_minute(64);
    whole.file.mounts.push_back(mount);
    whole.file.mount_proofs.push_back({.id = id_of(23, static_cast<int>(whole.file.mount_proofs.size())),
                                       .job_id = whole.file.job.id,
                                       .part_id = part.id,
                                       .kind = shop::ProofKind::scratch,
                                       .marks = {{90, 120, 20}, {200, 100, 20}},
                                       .runout_um = 62,
                                       .part_runout_um = 48,
                                       .mount_runout_um = 21,
                                       .allowed_um = 50,
                                       .costs_um = 21,
                                       .goes_on = true,
                                       .reason = "it goes with the rotor",
                                       .by_person_id = id_of(2, 1),
                                       .at = at_minute(70)});
    shop::CutPlan plan{.id = id_of(24, static_cast<int>(whole.file.cut_plans.size())),
                       .job_id = whole.file.job.id,
                       .part_id = part.id,
                       .lathe_id = lathe.id,
                       .insert_id = id_of(21, 1)};
    plan.passes = {{.outboard_marks = 3,
                    .inboard_marks = 4,
                    .rpm = 150,
                    .feed_mm_per_rev = 0.15,
                    .time_s = 160,
                    .ra_um = 1.8,
                    .thickness_after_mm = 22.66},
                   {.outboard_marks = 2,
                    .inboard_marks = 2,
                    .rpm = 150,
                    .feed_mm_per_rev = 0.1,
                    .time_s = 240,
                    .ra_um = 0.8,
                    .thickness_after_mm = 22.56}};
    plan.time_s = 400;
    plan.final_mm = 22.56;
    plan.by_person_id = id_of(2, 1);
    plan.at = at_minute(72);
    whole.file.cut_plans.push_back(plan);
    const auto cut = [&](std::int64_t number, const shop::ForeseenPass& planned, shop::PassOutcome outcome, int minute,
                         int seconds) {
      whole.file.passes.push_back({.id = id_of(25, static_cast<int>(whole.file.passes.size())),
                                   .job_id = whole.file.job.id,
                                   .part_id = part.id,
                                   .plan_id = plan.id,
                                   .number = number,
                                   .outboard_marks = planned.outboard_marks,
                                   .inboard_marks = planned.inboard_marks,
                                   .rpm = planned.rpm,
                                   .feed_mm_per_rev = planned.feed_mm_per_rev,
                                   .outcome = outcome,
                                   .began_at = at_minute(minute),
                                   .ended_at = at_minute(minute) + std::chrono::seconds(seconds),
                                   .by_person_id = id_of(2, 1),
                                   .at = at_minute(minute + 5)});
    };
    cut(1, plan.passes[0], shop::PassOutcome::finished, 78, 165);
    cut(2, plan.passes[1], shop::PassOutcome::stopped, 84, 31);
    cut(3, plan.passes[1], shop::PassOutcome::finished, 90, 247);
    const auto step = [&](shop::BenchPhase phase, const char* word, std::int64_t pass, shop::StepEvent event,
                          int minute, const char* detail = "") {
      whole.file.bench_steps.push_back({.id = id_of(26, static_cast<int>(whole.file.bench_steps.size())),
                                        .job_id = whole.file.job.id,
                                        .part_id = part.id,
                                        .phase = phase,
                                        .step = word,
                                        .pass = pass,
                                        .event = event,
                                        .detail = detail,
                                        .by_person_id = id_of(2, minute < 80 ? 1 : 2),
                                        .taken_at = at_minute(minute),
                                        .received_at = at_minute(minute)});
    };
    using shop::BenchPhase;
    using shop::StepEvent;
    step(BenchPhase::mount, "bore_clean", 0, StepEvent::done, 62);
    step(BenchPhase::cut, "band_on", 0, StepEvent::done, 74);
    step(BenchPhase::cut, "guards", 0, StepEvent::done, 75);
    step(BenchPhase::cut, "machine_on", 1, StepEvent::done, 76);
    step(BenchPhase::cut, "lock", 1, StepEvent::done, 77);
    step(BenchPhase::cut, "lock", 1, StepEvent::undone, 77);
    step(BenchPhase::cut, "pass", 2, StepEvent::trouble, 84, "chatter");
    step(BenchPhase::finish, "washed", 0, StepEvent::done, 104);
    step(BenchPhase::finish, "cloth_white", 0, StepEvent::done, 108);
  }
  whole.assess();
  return whole;
}

}  // namespace brakewright::report::sample
