#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/uncertainty/random.hpp"
#include "shop/shop.hpp"

namespace brakewright::shop::demo {

/// The time in the invented shop, in its own hands.
struct Clock {
  UtcTime now;

  void pass(double seconds) { now += std::chrono::milliseconds(static_cast<std::int64_t>(seconds * 1000)); }
};

/// A kind of rotor with the limits that the shop has met.
struct Kind {
  KnownPart known;
  Construction construction = Construction::hubless;
  Axle axle = Axle::front;
  double nominal_mm = 22;
  double machine_to_mm = 20.4;
  double discard_mm = 20;
};

/// What a mark of a lathe's dials really takes, which nobody in the shop knows before enough jobs are finished.
struct TrueDial {
  double outboard_um_per_mark = 25.4;
  double inboard_um_per_mark = 25.4;
};

/// Everything that belongs to the school before its first job.
struct School {
  std::vector<Person> teachers = {};
  std::vector<Person> hands = {};     ///< lead hand and students
  std::vector<Instrument> fine = {};  ///< micrometers that tell 0.001 mm or 0.0001 in
  Instrument coarse = {};             ///< tells 0.01 mm
  Instrument indicator = {};
  Instrument depth_gauge = {};
  Instrument tester = {};
  std::vector<Lathe> lathes = {};
  std::vector<TrueDial> true_dials = {};  ///< of each lathe
  std::vector<Kind> kinds = {};
  std::vector<TaperPlate> plates = {};  ///< those that hang there by now
  Instrument drum_gauge = {};
  std::vector<Kind> drums = {};
};

/// Enters people, instruments, lathes and known parts through the shop's own commands.
School found_school(Shop& shop, Clock& clock);

/// Limits of one kind as an example, typed in millimetres; also for the practice job.
Kind example_kind();

/// "silver hatchback, 1.2 petrol".
std::string draw_vehicle(Random& random);
std::string draw_customer(Random& random);
std::string draw_note(Complaint complaint, Random& random);

}  // namespace brakewright::shop::demo
