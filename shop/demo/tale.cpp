#include "shop/demo/tale.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "shop/demo/car.hpp"
#include "shop/demo/turning.hpp"

namespace brakewright::shop::demo {
namespace {

Wear wear_of(const Tale& tale, const Kind& kind, Random& random) {
  const double room_mm = kind.nominal_mm - kind.machine_to_mm;
  const auto between = [&](double low, double high) { return low + (high - low) * random.uniform(); };
  Wear wear{.thickness_mm = kind.machine_to_mm + between(0.45, 0.9) * room_mm,
            .variation_um = 7,
            .runout_um = 25,
            .scoring_um = 60};
  switch (tale.trouble) {
    case Trouble::pulsing:
      wear.variation_um = between(28, 48);
      wear.runout_um = between(55, 95);
      break;
    case Trouble::scored:
      wear.thickness_mm = kind.machine_to_mm + between(0.85, 0.97) * room_mm;
      wear.scoring_um = between(430, 620);
      wear.variation_um = 12;
      break;
    case Trouble::worn_out:
      wear.thickness_mm = kind.discard_mm - between(0.08, 0.3);
      wear.variation_um = 18;
      break;
    case Trouble::thin:
      wear.thickness_mm = kind.discard_mm + between(0.3, 0.7) * (kind.machine_to_mm - kind.discard_mm);
      wear.variation_um = between(26, 40);
      break;
    case Trouble::sound:
      wear.variation_um = 4;
      wear.runout_um = 18;
      wear.scoring_um = 40;
      break;
    case Trouble::cracked:
      wear.variation_um = 20;
      break;
  }
  return wear;
}

/// What the driver of a pulsing vehicle tells. Drawn apart, so that all else stays as it was drawn.
void tell_pulsation(Job& job) {
  static constexpr std::array kTyres{std::pair{"185/60 R15", 0.603}, std::pair{"205/55 R16", 0.632},
                                     std::pair{"225/45 R17", 0.634}, std::pair{"215/65 R16", 0.686}};
  Random random(static_cast<std::uint64_t>(*job.odometer));
  const auto& [tyre, diameter_m] = kTyres[random.below(kTyres.size())];
  job.tyre = tyre;
  job.vehicle_mass_kg = 1150 + 50 * static_cast<double>(random.below(16));
  job.felt_in = random.below(3) == 0 ? FeltIn::steering_wheel : FeltIn::pedal;
  const double speed_km_per_h = 60 + 10 * static_cast<double>(random.below(6));
  job.felt_speed_km_per_h = speed_km_per_h;
  if (random.below(2) == 0) return;
  job.felt_frequency_hz = std::round(2 * speed_km_per_h / 3.6 / (std::numbers::pi * diameter_m)) / 2;
}

/// One job being lived through.
class Life {
 public:
  Life(const Tale& tale, Shop& shop, Clock& clock, Random& random, const School& school)
      : tale_(tale), shop_(shop), clock_(clock), random_(random), school_(school), kind_(school.kinds.at(tale.kind)) {
    teacher_ = school.teachers[random.below(school.teachers.size())].id;
    worker_ = school.hands[random.below(school.hands.size())].id;
    lathe_ = tale.lathe.value_or(random.below(school.lathes.size()));
  }

  Uuid run() {
    open();
    if (tale_.until == Until::arrived) return id_;
    read_on_car();
    look_over();
    if (tale_.until == Until::looked_over) return id_;
    measure();
    if (tale_.until == Until::half_measured || tale_.until == Until::measured) return id_;
    const Action action = decide();
    if (action == Action::cut) {
      cut();
      if (tale_.until != Until::remeasured && tale_.until != Until::sealed) return id_;
      measure_after();
    }
    if (tale_.until != Until::sealed) return id_;
    if (tale_.on_car != OnCar::not_read) put_back();
    clock_.pass(120);
    shop_.seal(id_, teacher_);
    amend();
    return id_;
  }

 private:
  JobFile file() { return shop_.job_file(id_); }
  Bench bench() { return {shop_, clock_, random_, file(), worker_}; }

  void open() {
    Job job;
    job.id = id_ = shop_.new_id();
    job.brought_by = draw_customer(random_);
    job.vehicle = draw_vehicle(random_);
    job.complaint = tale_.complaint;
    job.complaint_note = draw_note(tale_.complaint, random_);
    job.axle = kind_.axle;
    job.odometer = 20'000 + static_cast<std::int64_t>(random_.below(140'000));
    if (job.complaint == Complaint::pulsation) tell_pulsation(job);
    if (tale_.until != Until::arrived) {
      job.worker_person_id = worker_;
      job.lathe_id = school_.lathes[lathe_].id;
    }
    std::vector<Part> parts;
    for (const Side side : {Side::left, Side::right}) {
      if (tale_.one_part && side == Side::right) continue;
      Part part;
      part.id = shop_.new_id();
      part.side = side;
      part.construction = kind_.construction;
      part.vented = kind_.known.vented;
      part.seat = kind_.known.seat;
      part.studs = kind_.known.studs;
      if (tale_.on_car != OnCar::not_read) part.hub_reading_diameter = parse_length("130", Unit::mm).typed;
      if (tale_.limits_known) {
        part.limits = kind_.known.limits;
        part.known_part_id = kind_.known.id;
        part.outer_diameter = kind_.known.outer_diameter;
      }
      parts.push_back(part);
    }
    clock_.pass(150);
    shop_.open_job(job, parts, teacher_);
    for (std::size_t k = 0; k < parts.size(); ++k)
      rotors_.push_back(draw_rotor(wear_of(tale_, kind_, random_), random_));
    for (Rotor& rotor : rotors_) {
      if (tale_.on_car != OnCar::not_read) rotor.hub_um = tale_.on_car == OnCar::tilted_hub ? 45 : 22;
    }
    if (tale_.pitted) {
      rotors_[0].pit_deg = 360.0 * 5 / static_cast<double>(tale_.points);
      rotors_[0].pit_um = 340;
    }
  }

  Fitter fitter() { return {shop_, clock_, random_, id_, worker_, indicator_}; }

  void read_on_car() {
    if (tale_.on_car == OnCar::not_read) return;
    indicator_ = take_up(school_.indicator, random_);
    auto under = fitter();
    const auto parts = file().parts;
    for (std::size_t k = 0; k < parts.size(); ++k) {
      const bool one = tale_.on_car == OnCar::hub_and_one;
      under.read_as_it_came(parts[k].id, rotors_[k], tale_.on_car != OnCar::two_positions,
                            one ? std::vector<std::int64_t>{0} : std::vector<std::int64_t>{0, 2});
    }
  }

  void put_back() {
    const bool tilted = tale_.on_car == OnCar::tilted_hub;
    auto under = fitter();
    const auto parts = file().parts;
    for (std::size_t k = 0; k < parts.size(); ++k) {
      std::vector<std::int64_t> tried;
      for (std::int64_t stud = 0; stud < parts[k].studs && !tilted; ++stud) tried.push_back(stud);
      under.put_back(parts[k].id, rotors_[k], tried,
                     tilted ? std::optional(school_.plates.at(1)) : std::optional<TaperPlate>());
    }
  }

  void look_over() {
    auto at = bench();
    const auto parts = file().parts;
    for (std::size_t k = 0; k < parts.size(); ++k) {
      if (tale_.trouble == Trouble::cracked && k == 0) {
        at.finding(parts[k].id, FindingKind::crack, Judgement::reject, "from the edge inward, 20 mm, outboard face");
      } else if (tale_.pitted && k == 0) {
        at.finding(parts[k].id, FindingKind::deep_pitting, Judgement::noted, "one pit near point 6");
      } else if (random_.uniform() < 0.2) {
        at.finding(parts[k].id, FindingKind::rust_lip, Judgement::noted, "scraped off before measuring");
      } else if (tale_.trouble == Trouble::pulsing && random_.uniform() < 0.15) {
        at.finding(parts[k].id, FindingKind::blueing, Judgement::noted);
      } else {
        at.finding(parts[k].id, FindingKind::nothing_found, Judgement::noted);
      }
    }
  }

  void measure() {
    micrometer_ = take_up(tale_.gauge < school_.fine.size() ? school_.fine[tale_.gauge] : school_.coarse, random_);
    if (tale_.on_car == OnCar::not_read) indicator_ = take_up(school_.indicator, random_);
    cheek_gauge_ = take_up(school_.depth_gauge, random_);
    auto at = bench();
    const auto parts = file().parts;
    at.zero(micrometer_);
    const bool half = tale_.until == Until::half_measured;
    for (std::size_t k = 0; k < parts.size(); ++k) {
      at.plan(parts[k].id, micrometer_, school_.indicator, tale_.points, tale_.two_circles);
      const bool stopped = half && k + 1 == parts.size();
      at.thickness(parts[k].id, rotors_[k], Stage::before, micrometer_, stopped ? 3 : -1);
      if (stopped) return;
      at.runout(parts[k].id, rotors_[k], Stage::before, indicator_);
      at.scoring(parts[k].id, rotors_[k], take_up(school_.depth_gauge, random_));
      if (tale_.cheeks) at.cheeks(parts[k].id, rotors_[k], Stage::before, cheek_gauge_);
    }
    if (tale_.mistyped) at.mistype_and_correct(parts[0].id, rotors_[0], micrometer_, 2);
    if (tale_.taken_back) at.read_and_take_back(parts[0].id, rotors_[0], micrometer_, 4);
  }

  Decision decide_as(Action action, const std::string& reason) {
    clock_.pass(60);
    return shop_.decide(shop_.new_id(), id_, action, reason, teacher_);
  }

  Action decide() {
    clock_.pass(90);
    assessed_ = shop_.assessment(id_);
    if (assessed_.verdict && assessed_.verdict->action == brakewright::Action::measure_again) {
      decide_as(Action::measure_again, "");
      const auto parts = file().parts;
      auto at = bench();
      at.zero(micrometer_);
      for (std::size_t k = 0; k < parts.size(); ++k) at.thickness(parts[k].id, rotors_[k], Stage::before, micrometer_);
      assessed_ = shop_.assessment(id_);
    }
    if (tale_.on_car == OnCar::tilted_hub) {
      return decide_as(Action::leave, "The rotor is within its limits: the shake is the hub's tilt.").action;
    }
    if (!assessed_.verdict) return decide_as(Action::replace, "The readings could not be worked out.").action;
    const bool wants_cut = tale_.until >= Until::decided && tale_.until <= Until::remeasured;
    switch (assessed_.verdict->action) {
      case brakewright::Action::cut:
        if (!tale_.overruled) return decide_as(Action::cut, "").action;
        return decide_as(Action::replace, "Customer wants new discs with the new pads; told that a cut was possible.")
            .action;
      case brakewright::Action::leave:
        if (wants_cut) return decide_as(Action::cut, "Light cut to true the faces for the class to measure.").action;
        if (!tale_.overruled) return decide_as(Action::leave, "").action;
        return decide_as(Action::replace, "Vehicle goes on a long trip and the next chance is in a year.").action;
      case brakewright::Action::replace:
        return decide_as(Action::replace, "").action;
      case brakewright::Action::measure_again:
        break;
    }
    if (wants_cut) return decide_as(Action::cut, "Two rounds of readings agree; the cut leaves enough by both.").action;
    return decide_as(Action::replace,
                     "Read twice and still too close to the limit to tell; replaced to be done with it.")
        .action;
  }

  TurnedUntil seen_through(std::size_t part, std::size_t parts) const {
    switch (tale_.until) {
      case Until::proven:
        return TurnedUntil::proven;
      case Until::between_passes:
        return TurnedUntil::between_passes;
      case Until::half_finished:
        return part + 1 < parts ? TurnedUntil::finished : TurnedUntil::half_finished;
      default:
        return TurnedUntil::finished;
    }
  }

  void cut() {
    if (tale_.until == Until::decided) return;
    const auto parts = file().parts;
    Turner turner(shop_, clock_, random_, school_, lathe_, id_, worker_);
    for (std::size_t k = 0; k < parts.size(); ++k) {
      const auto& cleanup = assessed_.verdict->parts.at(k).cleanup;
      PlannedPass least{.outboard_marks = cleanup.outboard_marks, .inboard_marks = cleanup.inboard_marks};
      if (least.outboard_marks + least.inboard_marks == 0) least.outboard_marks = least.inboard_marks = 2;
      TurnedMishap mishap;
      if (k == 0) mishap = {.outboard_marks_short = tale_.misread ? 1 : 0, .trouble = tale_.mishap};
      const TurnedUntil until = seen_through(k, parts.size());
      const double hub_deg = rotors_[k].hub_phase_deg;
      turner.turn(parts[k].id, rotors_[k], least, until, mishap);
      if (tale_.on_car != OnCar::not_read) rotors_[k].hub_phase_deg = hub_deg;
      if (until == TurnedUntil::proven || until == TurnedUntil::between_passes) return;
    }
  }

  void measure_after() {
    clock_.pass(1800);
    auto at = bench();
    at.zero(micrometer_);
    for (std::size_t k = 0; k < rotors_.size(); ++k) {
      const Uuid part = file().parts[k].id;
      at.thickness(part, rotors_[k], Stage::after, micrometer_);
      if (tale_.cheeks) at.cheeks(part, rotors_[k], Stage::after, cheek_gauge_);
      at.roughness(part, take_up(school_.tester, random_));
      if (tale_.on_car == OnCar::not_read) at.runout(part, rotors_[k], Stage::after, indicator_);
    }
  }

  void amend() {
    if (tale_.amendment.empty()) return;
    clock_.pass(86'400);
    Amendment amendment;
    amendment.id = shop_.new_id();
    amendment.job_id = id_;
    amendment.text = tale_.amendment;
    shop_.amend(amendment, teacher_);
  }

  const Tale& tale_;
  Shop& shop_;
  Clock& clock_;
  Random& random_;
  const School& school_;
  const Kind& kind_;
  Uuid id_;
  Uuid teacher_;
  Uuid worker_;
  std::size_t lathe_ = 0;
  std::vector<Rotor> rotors_;
  Assessment assessed_;  ///< what the decision rested on
  Gauge micrometer_;
  Gauge indicator_;
  Gauge cheek_gauge_;
};

}  // namespace

Uuid live(const Tale& tale, Shop& shop, Clock& clock, Random& random, const School& school) {
  return Life(tale, shop, clock, random, school).run();
}

}  // namespace brakewright::shop::demo
