#include "shop/demo/demo.hpp"

#include <algorithm>
#include <memory>

#include "shop/demo/car.hpp"
#include "shop/demo/drum.hpp"
#include "shop/demo/tale.hpp"
#include "shop/doors/doors.hpp"

namespace brakewright::shop {

using namespace demo;

namespace {

constexpr std::size_t kFinished = 40;
constexpr int kTermDays = 75;     ///< school days of a term, about fifteen weeks
constexpr int kHolidayDays = 16;  ///< between the two terms

RandomBytes bytes_from(std::shared_ptr<Random> random) {
  return [random](std::span<std::uint8_t> bytes) {
    for (auto& byte : bytes) byte = static_cast<std::uint8_t>(random->below(256));
  };
}

/// Mornings of so many school days, evenly spread over the two terms that end a few days before `now`.
std::vector<UtcTime> school_days(UtcTime now, std::size_t count, Random& random) {
  std::vector<std::chrono::sys_days> days;
  auto day = std::chrono::floor<std::chrono::days>(now) - std::chrono::days(4);
  int taught = 0;
  while (taught < 2 * kTermDays) {
    const auto weekday = std::chrono::weekday(day).c_encoding();
    if (weekday >= 1 && weekday <= 5) {
      days.push_back(day);
      if (++taught == kTermDays) day -= std::chrono::days(kHolidayDays);
    }
    day -= std::chrono::days(1);
  }
  std::reverse(days.begin(), days.end());
  std::vector<UtcTime> mornings;
  for (std::size_t k = 0; k < count; ++k) {
    mornings.push_back(days[k * days.size() / count] + std::chrono::hours(8) +
                       std::chrono::minutes(20 + random.below(200)));
  }
  return mornings;
}

/// Beginning of the last school day before today.
UtcTime last_morning(UtcTime now) {
  auto day = std::chrono::floor<std::chrono::days>(now) - std::chrono::days(1);
  while (std::chrono::weekday(day).iso_encoding() > 5) day -= std::chrono::days(1);
  return day + std::chrono::hours(8) + std::chrono::minutes(40);
}

Tale finished_tale(std::size_t number, Random& random) {
  static constexpr Trouble kTroubles[] = {Trouble::pulsing, Trouble::sound,   Trouble::pulsing, Trouble::worn_out,
                                          Trouble::pulsing, Trouble::scored,  Trouble::sound,   Trouble::pulsing,
                                          Trouble::thin,    Trouble::pulsing, Trouble::sound,   Trouble::pulsing};
  Tale tale;
  tale.trouble = number == 17 || number == 33 ? Trouble::cracked : kTroubles[number % 12];
  switch (tale.trouble) {
    case Trouble::pulsing:
      tale.complaint = Complaint::pulsation;
      break;
    case Trouble::scored:
      tale.complaint = Complaint::noise;
      break;
    case Trouble::sound:
      tale.complaint = random.uniform() < 0.5 ? Complaint::inspection : Complaint::pad_change;
      break;
    default:
      tale.complaint = random.uniform() < 0.5 ? Complaint::pad_change : Complaint::inspection;
  }
  tale.kind = random.below(6);
  tale.gauge = tale.kind == 4 ? 2 : random.below(2);
  tale.points = number % 5 == 4 ? 12 : 8;
  tale.two_circles = number % 9 == 5;
  tale.one_part = number % 13 == 7;
  tale.overruled = number == 9 || number == 22;
  tale.mistyped = number % 7 == 2;
  tale.taken_back = number % 11 == 6;
  tale.pitted = number == 24;
  // Most of the cutting is done on the middle lathe, so that its dials are known best.
  static constexpr std::size_t kLathes[] = {1, 0, 1, 2, 1, 0, 1, 2};
  if (tale.trouble == Trouble::pulsing || tale.trouble == Trouble::scored) tale.lathe = kLathes[number / 2 % 8];
  tale.cheeks = number % 3 == 1 && tale.kind != 2 && tale.kind != 5;
  tale.misread = number == 31;
  if (number == 19) tale.mishap = "noise";
  if (number == 12) {
    tale.amendment = "Customer came back after 1,000 km: no shake. Runout read again on the car, within its limit.";
  }
  if (number == 28) tale.amendment = "The odometer figure was read in miles, not kilometres.";
  return tale;
}

std::vector<Tale> open_tales() {
  const Tale ordinary{.kind = 1};
  std::vector<Tale> tales(11, ordinary);
  tales[0].until = Until::remeasured;
  tales[1].until = Until::cut;
  tales[1].kind = 3;
  tales[2].until = Until::measured;
  tales[2].complaint = Complaint::noise;
  tales[2].kind = 0;
  tales[3].until = Until::half_measured;
  tales[3].kind = 5;
  tales[4].until = Until::looked_over;
  tales[4].limits_known = false;
  tales[4].complaint = Complaint::inspection;
  tales[5].until = Until::arrived;
  tales[5].complaint = Complaint::pad_change;
  tales[5].kind = 4;
  tales[6].until = Until::half_finished;
  tales[6].kind = 3;
  tales[6].lathe = 2;
  tales[7].until = Until::between_passes;
  tales[7].lathe = 1;
  tales[8].until = Until::proven;
  tales[8].kind = 3;
  tales[8].lathe = 0;
  tales[9].until = Until::decided;  // hubless
  tales[9].lathe = 2;
  tales[10].until = Until::decided;  // integral hub
  tales[10].kind = 4;
  tales[10].gauge = 2;
  tales[10].lathe = 2;
  tales.push_back(tales[9]);  // no stack fits it
  tales.back().kind = 6;
  tales.back().complaint = Complaint::noise;
  return tales;
}

/// Those that were read on the car as well, after all the others.
std::vector<Tale> car_tales() {
  std::vector<Tale> tales(3, Tale{.kind = 1, .lathe = 2});
  tales[0].on_car = OnCar::two_positions;
  tales[1].on_car = OnCar::tilted_hub;
  tales[1].trouble = Trouble::sound;
  tales[2].on_car = OnCar::hub_and_one;
  tales[2].until = Until::remeasured;
  return tales;
}

/// A sealed pair behind discs that went back on the car, and pairs that are being measured or wait for a decision.
std::vector<DrumTale> drum_tales(const std::vector<Uuid>& on_car) {
  return {{.kind = 0, .beside = on_car.front()},
          {.kind = 1, .bell_um = 90, .until = DrumUntil::half_measured},
          {.kind = 0, .beside = on_car.back(), .worn_share = 0.6, .until = DrumUntil::measured},
          {.kind = 2, .worn_share = 0.3, .bell_um = 20, .until = DrumUntil::measured}};
}

}  // namespace

void make_demo(Store& store, std::uint64_t seed, UtcTime now,
               std::function<std::string(const Assessment&)> verdict_json) {
  if (!store.people().empty() || store.last_seq() > 0) {
    throw RuleError("not_empty", "", "demo data goes into an empty shop only");
  }
  Clock clock{now};
  Random random(seed);
  Shop shop(store, {.now = [&clock] { return clock.now; },
                    .random = bytes_from(std::make_shared<Random>(seed, 1)),
                    .verdict_json = std::move(verdict_json)});
  const auto mornings = school_days(now, kFinished, random);
  clock.now = mornings.front() - std::chrono::days(5);
  shop.batch([&] {
    Settings settings = store.settings();
    settings.demo = true;
    store.put(settings);
    demo::School school = found_school(shop, clock);
    for (std::size_t k = 0; k < mornings.size(); ++k) {
      clock.now = std::max(clock.now, mornings[k]);
      live(finished_tale(k, random), shop, clock, random, school);
    }
    clock.now = std::max(clock.now, last_morning(last_morning(now)));
    for (const Tale& tale : open_tales()) live(tale, shop, clock, random, school);
    clock.now = std::max(clock.now, last_morning(now));
    enter_plates(shop, clock, school);
    std::vector<Uuid> on_car;
    for (const Tale& tale : car_tales()) on_car.push_back(live(tale, shop, clock, random, school));
    enter_drums(shop, clock, school);
    for (const DrumTale& tale : drum_tales(on_car)) live(tale, shop, clock, random, school);
  });
}

void close_demo_doors(Store& store, SecretStore& secrets, std::uint64_t seed, UtcTime now) {
  const RandomBytes random = bytes_from(std::make_shared<Random>(seed, 2));
  const auto clock = [now] { return now; };
  Shop shop(store, {.now = clock, .random = random});
  Doors doors(shop, secrets, {}, clock, random);
  const auto people = shop.people();
  shop.batch([&] {
    for (const Person& person : people) {
      if (leads(person.role)) doors.set(person.id, SecretKind::password, kDemoPassword, people.front().id);
      doors.set(person.id, SecretKind::pin, kDemoPin, people.front().id);
    }
  });
}

JobFile open_practice_job(Shop& shop, const Uuid& by, std::uint64_t seed, UtcTime now) {
  Random random(seed);
  Clock clock{now - std::chrono::minutes(40)};
  const auto first = [](const auto& all, const auto& wanted) {
    using Item = typename std::remove_cvref_t<decltype(all)>::value_type;
    const auto found = std::find_if(all.begin(), all.end(), wanted);
    return found == all.end() ? std::optional<Item>() : std::optional<Item>(*found);
  };
  const auto instruments = shop.instruments();
  const auto of_kind = [&](InstrumentKind kind) {
    return first(instruments, [&](const Instrument& one) { return one.active && one.kind == kind; });
  };
  const auto lathe = first(shop.lathes(), [](const Lathe& one) { return one.active; });

  const Kind kind = example_kind();
  Job job;
  job.id = shop.new_id();
  job.brought_by = "Practice";
  job.vehicle = draw_vehicle(random);
  job.complaint = Complaint::practice;
  job.complaint_note = "Invented rotors to practise on: pedal pulses from 80 km/h down.";
  job.axle = kind.axle;
  job.odometer = 84'000;
  job.worker_person_id = by;
  if (lathe) job.lathe_id = lathe->id;
  std::vector<Part> parts(2);
  for (std::size_t k = 0; k < parts.size(); ++k) {
    parts[k].id = shop.new_id();
    parts[k].side = k == 0 ? Side::left : Side::right;
    parts[k].outer_diameter = kind.known.outer_diameter;
    parts[k].limits = kind.known.limits;
    parts[k].seat = kind.known.seat;
  }
  // No zero check: an invented one would stand in the record of a real instrument.
  const Gauge micrometer{.instrument = of_kind(InstrumentKind::micrometer)};
  const Gauge indicator{.instrument = of_kind(InstrumentKind::dial_indicator)};
  const Gauge depth{.instrument = of_kind(InstrumentKind::depth_gauge)};
  shop.batch([&] {
    const JobFile opened = shop.open_job(job, parts, by);
    Bench bench(shop, clock, random, opened, by);
    for (const Part& part : opened.parts) {
      const Rotor rotor = draw_rotor({.thickness_mm = kind.machine_to_mm + 0.7 * (kind.nominal_mm - kind.machine_to_mm),
                                      .variation_um = 38,
                                      .runout_um = 70,
                                      .scoring_um = 80},
                                     random);
      bench.plan(part.id, micrometer, indicator.instrument, 8, false);
      bench.finding(part.id, FindingKind::nothing_found, Judgement::noted);
      bench.thickness(part.id, rotor, Stage::before, micrometer);
      bench.runout(part.id, rotor, Stage::before, indicator);
      bench.scoring(part.id, rotor, depth);
    }
  });
  return shop.job_file(job.id);
}

}  // namespace brakewright::shop
