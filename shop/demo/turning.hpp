#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/uncertainty/random.hpp"
#include "shop/demo/rotor.hpp"
#include "shop/demo/school.hpp"

namespace brakewright::shop::demo {

/// How far one part is seen through on the lathe.
enum class TurnedUntil { proven, between_passes, cut, half_finished, finished };

/// What goes otherwise than it should.
struct TurnedMishap {
  std::int64_t outboard_marks_short = 0;  ///< so many fewer than were written down
  std::string trouble = {};               ///< said on the way, "noise"; then gone on
};

/// Somebody at a lathe with one part: mounts it, proves the mount, settles on passes, cuts and washes it, all through
/// the shop's commands at the clock's time.
class Turner {
 public:
  /// @param lathe  place in School::lathes, which is the job's
  Turner(Shop& shop, Clock& clock, Random& random, const School& school, std::size_t lathe, const Uuid& job_id,
         const Uuid& worker);

  /// @param rotor  becomes what is left of it
  /// @param least  marks of both faces when no passes can be worked out
  void turn(const Uuid& part_id, Rotor& rotor, const PlannedPass& least, TurnedUntil until, const TurnedMishap& mishap);

 private:
  void mount();
  void prove();
  std::vector<PlannedPass> settle(const PlannedPass& least);
  void cut_pass(std::size_t index, std::size_t count);
  void prepare_pass(std::int64_t number, bool first);
  void run_pass(const PlannedPass& pass, std::int64_t number);
  void finish(bool whole);
  void take_down();
  void tick(BenchPhase phase, const std::string& step, std::int64_t pass = 0, StepEvent event = StepEvent::done,
            const std::string& detail = "", double seconds = 12);
  std::vector<double> trace() const;
  Uuid corner_of(const std::string& insert_name);

  Shop& shop_;
  Clock& clock_;
  Random& random_;
  const Lathe& lathe_;
  const TrueDial& truth_;
  Uuid job_id_;
  Uuid worker_;
  Part part_;
  Rotor* rotor_ = nullptr;
  TurnedMishap mishap_;
  Turned turned_;
  std::vector<PlannedPass> passes_;
  std::optional<Uuid> plan_id_;
};

}  // namespace brakewright::shop::demo
