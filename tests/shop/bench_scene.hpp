#pragma once

#include "tests/shop/classroom.hpp"

namespace brakewright::shop {

/// The classroom with an arbor, a pegboard that carries one hubless part, an insert, and jobs that are measured and
/// decided to be cut.
class BenchScene : public Classroom {
 protected:
  static Length of_mm(double mm) { return {std::llround(mm * 1e6)}; }

  BenchScene() {
    iron = shop.lathes().front();
    iron.arbor_diameter = of_mm(25);
    iron.thread_start = of_mm(90);
    iron.tip = of_mm(140);
    iron.nut_engagement = of_mm(15);
    iron.speeds_rpm = {100, 150};
    iron.feeds_mm_per_rev = {0.05, 0.1, 0.15};
    shop.put_lathe(iron, teacher);
    insert = shop.put_insert({.id = id(), .name = "Insert 1"}, teacher);
  }

  Piece piece(PieceKind kind, const std::string& name, double length_mm) {
    Piece made{.id = id(), .name = name, .kind = kind};
    made.bore = of_mm(25);
    made.length = of_mm(length_mm);
    switch (kind) {
      case PieceKind::cone:
      case PieceKind::taper:
        made.small = of_mm(55);
        made.large = of_mm(65);
        break;
      case PieceKind::clamp:
        made.ring_inner = of_mm(100);
        made.ring_outer = of_mm(130);
        made.cup_depth = of_mm(30);
        made.cup_bore = of_mm(75);
        break;
      case PieceKind::spring:
        made.solid = of_mm(10);
        made.free = of_mm(35);
        break;
      case PieceKind::spacer:
      case PieceKind::nut:
        break;
    }
    return made;
  }

  Piece hang(const Piece& made) { return shop.put_piece(made, teacher); }

  /// From the shoulder outward.
  std::vector<Piece> hang_a_stack() {
    std::vector<Piece> made{piece(PieceKind::clamp, "C1", 35),  piece(PieceKind::spring, "S1", 20),
                            piece(PieceKind::cone, "K1", 20),   piece(PieceKind::clamp, "C2", 35),
                            piece(PieceKind::spacer, "R1", 20), piece(PieceKind::nut, "N1", 20)};
    for (const Piece& one : made) hang(one);
    return made;
  }

  static std::vector<Uuid> ids_of(const std::vector<Piece>& pieces) {
    std::vector<Uuid> ids;
    for (const Piece& one : pieces) ids.push_back(one.id);
    return ids;
  }

  /// Measured, looked over, with seat and ring known, and decided to be cut.
  JobFile decided(std::size_t parts = 1, double mean_mm = 21.5, double variation_mm = 0.04) {
    const JobFile file = open(parts);
    for (Part part : file.parts) {
      part.outer_diameter = mm("280");
      part.seat.ring_inner = mm("160");
      part.seat.bore = mm("60");
      part.seat.flange = mm("7");
      part.seat.flat_inner = mm("80");
      part.seat.flat_outer = mm("140");
      shop.change_part(part, teacher);
    }
    look_over(file);
    measure(file, mean_mm, variation_mm);
    shop.decide(id(), file.job.id, Action::cut, "as the class was told", teacher);
    return shop.job_file(file.job.id);
  }

  Mount mount(const JobFile& file, const std::vector<Uuid>& pieces, const std::string& reason = "",
              std::size_t part = 0) {
    clock += std::chrono::seconds(60);
    return shop.record_mount(file.job.id, {id(), file.parts.at(part).id, lathe, pieces, reason}, teacher);
  }

  NewMountProof swing(const JobFile& file, const std::string& runout, std::size_t part = 0) {
    clock += std::chrono::seconds(60);
    return {.id = id(),
            .part_id = file.parts.at(part).id,
            .kind = ProofKind::indicator,
            .runout = mm(runout),
            .goes_on = true};
  }

  MountProof prove(const JobFile& file, const NewMountProof& proof) {
    return shop.record_proof(file.job.id, proof, teacher);
  }

  CutPlan settle(const JobFile& file, const std::vector<PlannedPass>& passes, std::size_t part = 0) {
    return shop.settle_plan(file.job.id, {id(), file.parts.at(part).id, lathe, {}, passes}, teacher);
  }

  NewPass pass_of(const JobFile& file, std::int64_t outboard, std::int64_t inboard, std::size_t part = 0) {
    NewPass made{.id = id(), .part_id = file.parts.at(part).id};
    made.outboard_marks = outboard;
    made.inboard_marks = inboard;
    made.rpm = 100;
    made.feed_mm_per_rev = 0.1;
    made.began_at = clock;
    clock += std::chrono::minutes(8);
    made.ended_at = clock;
    return made;
  }

  void tick(const JobFile& file, const std::string& step, StepEvent event = StepEvent::done, std::size_t part = 0) {
    NewBenchStep made{.id = id(), .part_id = file.parts.at(part).id, .phase = BenchPhase::finish, .step = step};
    made.event = event;
    shop.record_step(file.job.id, made, teacher);
  }

  Cut cut(const JobFile& file, std::int64_t outboard, std::int64_t inboard, std::size_t part = 0) {
    return shop.record_cut({.id = id(),
                            .job_id = file.job.id,
                            .part_id = file.parts.at(part).id,
                            .outboard_marks = outboard,
                            .inboard_marks = inboard},
                           teacher);
  }

  WaitsFor waits(const JobFile& file) { return shop.assessment(file.job.id).waits_for; }

  PieceState state(const Uuid& piece_id) {
    for (const Booking& booking : shop.last_bookings()) {
      if (booking.piece_id == piece_id) return state_of(booking);
    }
    return PieceState::on_board;
  }

  Lathe iron;
  Insert insert;
};

}  // namespace brakewright::shop
