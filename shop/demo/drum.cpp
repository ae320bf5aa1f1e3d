#include "shop/demo/drum.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "shop/progress.hpp"

namespace brakewright::shop::demo {
namespace {

constexpr std::size_t kLathe = 0;

struct DrumText {
  const char* name;
  Construction construction;
  PartKind kind;
  const char* nominal;
  const char* machine_to;
  const char* discard;
  const char* band;
  /// hubless: bore, flange, inner and outer diameter of the flat; integral hub: length, inner race, outer race
  std::array<const char*, 4> seat;
};

// Invented parts; the figures lie where public tables of drums have theirs.
constexpr std::array kDrums{DrumText{"hatchback rear drum, 203 mm",
                                     Construction::hubless,
                                     PartKind::drum,
                                     "203",
                                     "204.2",
                                     "204.5",
                                     "38",
                                     {"61", "6", "78", "120"}},
                            DrumText{"pick-up rear drum on its hub, 254 mm",
                                     Construction::integral_hub,
                                     PartKind::drum,
                                     "254",
                                     "255.5",
                                     "256",
                                     "57",
                                     {"78", "52", "38", nullptr}},
                            DrumText{"parking drum in the hat, 190 mm",
                                     Construction::hubless,
                                     PartKind::drum_in_hat,
                                     "190",
                                     "190.8",
                                     "191",
                                     "26",
                                     {"65", "8", "84", "142"}}};

Kind kind_of(const DrumText& text) {
  const auto typed = [](const char* figure) { return parse_length(figure, Unit::mm).typed; };
  Kind kind;
  kind.construction = text.construction;
  kind.axle = Axle::rear;
  KnownPart& known = kind.known;
  known.name = text.name;
  known.kind = text.kind;
  known.vented = false;
  known.studs = 5;
  known.band_width = typed(text.band);
  known.limits.nominal =
      Limit{typed(text.nominal), LimitSource::service_information, "data sheet in the shop's folder"};
  known.limits.machine_to =
      Limit{typed(text.machine_to), LimitSource::service_information, "data sheet in the shop's folder"};
  known.limits.discard = Limit{typed(text.discard), LimitSource::cast_on_part, ""};
  known.limits.out_of_round = Limit{typed("0.1"), LimitSource::service_information, "data sheet in the shop's folder"};
  known.limits.taper = Limit{typed("0.1"), LimitSource::house_rule, ""};
  known.limits.scoring = Limit{typed("0.3"), LimitSource::house_rule, ""};
  kind.nominal_mm = known.limits.nominal->value.value.mm();
  kind.machine_to_mm = known.limits.machine_to->value.value.mm();
  kind.discard_mm = known.limits.discard->value.value.mm();
  Seat& seat = known.seat;
  if (text.construction == Construction::integral_hub) {
    seat.hub_length = typed(text.seat[0]);
    seat.inner_race = typed(text.seat[1]);
    seat.outer_race = typed(text.seat[2]);
    return kind;
  }
  seat.bore = typed(text.seat[0]);
  seat.flange = typed(text.seat[1]);
  seat.flat_inner = typed(text.seat[2]);
  seat.flat_outer = typed(text.seat[3]);
  return kind;
}

/// One job of drums being lived through.
class DrumLife {
 public:
  DrumLife(const DrumTale& tale, Shop& shop, Clock& clock, Random& random, const School& school)
      : tale_(tale), shop_(shop), clock_(clock), random_(random), school_(school), kind_(school.drums.at(tale.kind)) {
    teacher_ = school.teachers.front().id;
    worker_ = school.hands[random.below(school.hands.size())].id;
    gauge_ = take_up(school.drum_gauge, random);
  }

  Uuid run() {
    open();
    look_over();
    measure(Stage::before);
    if (tale_.until != DrumUntil::sealed) return id_;
    cut();
    measure(Stage::after);
    clock_.pass(300);
    shop_.seal(id_, teacher_);
    return id_;
  }

 private:
  void open() {
    Job job;
    job.id = id_ = shop_.new_id();
    if (tale_.beside) {
      const Job other = shop_.job_file(*tale_.beside).job;
      job.beside_job_id = other.id;
      job.brought_by = other.brought_by;
      job.vehicle = other.vehicle;
      job.odometer = other.odometer;
    } else {
      job.brought_by = draw_customer(random_);
      job.vehicle = draw_vehicle(random_);
      job.odometer = 20'000 + static_cast<std::int64_t>(random_.below(140'000));
    }
    job.complaint = Complaint::inspection;
    job.complaint_note = "drums and shoes looked at with the other axle";
    job.axle = kind_.axle;
    job.worker_person_id = worker_;
    job.lathe_id = school_.lathes.at(kLathe).id;
    for (const Side side : {Side::left, Side::right}) {
      Part part{.id = shop_.new_id(), .side = side, .construction = kind_.construction, .vented = false};
      part.kind = kind_.known.kind;
      part.known_part_id = kind_.known.id;
      part.limits = kind_.known.limits;
      part.seat = kind_.known.seat;
      part.studs = kind_.known.studs;
      part.band_width = kind_.known.band_width;
      part.lining_radius =
          parse_length(format_number({std::llround((kind_.nominal_mm / 2 - 0.2) * 1e6)}, Unit::mm, 100'000), Unit::mm)
              .typed;
      part.lining_arc_deg = 110;
      parts_.push_back(part);
      drums_.push_back(draw());
    }
    clock_.pass(150);
    shop_.open_job(job, parts_, teacher_);
  }

  Drum draw() {
    const double room_mm = kind_.machine_to_mm - kind_.nominal_mm;
    Drum drum{.mean_mm = kind_.nominal_mm + tale_.worn_share * room_mm + 0.02 * random_.normal(),
              .bell_um = tale_.bell_um * (0.7 + 0.6 * random_.uniform()),
              .score_um = 60 + 80 * random_.uniform()};
    for (const int order : {2, 4}) {
      drum.diameter.push_back({order, 130.0 / order * (0.6 + 0.8 * random_.uniform()), 360 * random_.uniform()});
    }
    return drum;
  }

  void look_over() {
    for (std::size_t k = 0; k < parts_.size(); ++k) {
      Finding finding{.id = shop_.new_id(), .job_id = id_, .part_id = parts_[k].id, .kind = FindingKind::nothing_found};
      if (k == 0) {
        finding.kind = FindingKind::hard_spot;
        finding.note = "two blue patches at the open edge, a file bites";
      }
      clock_.pass(60);
      shop_.add_finding(finding, worker_);
    }
  }

  void add(NewReading reading) {
    clock_.pass(10 + 8 * random_.uniform());
    reading.id = shop_.new_id();
    reading.taken_at = clock_.now;
    try {
      shop_.add_reading(id_, reading, worker_);
    } catch (const DoubtfulReading&) {
      reading.confirmed = true;
      shop_.add_reading(id_, reading, worker_);
    }
  }

  void measure(Stage stage) {
    clock_.pass(600);
    shop_.add_zero_check(
        shop_.new_id(), gauge_.instrument->id,
        format_number({std::llround(gauge_.zero_mm * 1e6)}, gauge_.unit(), gauge_.instrument->resolution.nm),
        gauge_.unit(), id_, worker_);
    const bool half = tale_.until == DrumUntil::half_measured;
    for (std::size_t k = 0; k < parts_.size(); ++k) {
      diameters(k, stage, half && k > 0 ? 1 : 99);
      if (half && k > 0) return;
      NewReading face{.part_id = parts_[k].id, .stage = stage, .default_unit = Unit::mm};
      face.quantity = stage == Stage::before ? Quantity::scoring_outboard : Quantity::roughness_outboard;
      const Instrument& instrument = stage == Stage::before ? school_.depth_gauge : school_.tester;
      face.instrument_id = instrument.id;
      face.text = stage == Stage::before
                      ? format_number({std::llround(drums_[k].score_um / 10) * 10'000}, Unit::mm, 10'000)
                      : "1." + std::to_string(4 + random_.below(5)) + " um";
      add(face);
    }
  }

  /// @param most  of the depths that are read
  void diameters(std::size_t k, Stage stage, std::size_t most) {
    const MeasuringPlan plan = *plan_of(shop_.job_file(id_), parts_[k].id, stage);
    for (std::size_t depth = 0; depth < std::min(most, plan.circles_from_edge.size()); ++depth) {
      const double share = plan.circles_from_edge[depth].mm() / kind_.known.band_width->value.mm();
      for (std::int64_t point = 0; point < plan.points; ++point) {
        NewReading reading{.part_id = parts_[k].id, .stage = stage, .quantity = Quantity::diameter};
        reading.circle = static_cast<std::int64_t>(depth);
        reading.point = point;
        reading.default_unit = gauge_.unit();
        reading.instrument_id = gauge_.instrument->id;
        const double angle_deg = 180.0 * static_cast<double>(point) / static_cast<double>(plan.points);
        reading.text = gauge_.shows(drums_[k].diameter_at(angle_deg, share), random_);
        add(reading);
      }
    }
  }

  /// By hand, both drums to one size: depth on the radius from first touch, a little more than the deepest groove.
  void cut() {
    clock_.pass(240);
    shop_.decide(shop_.new_id(), id_, Action::cut, "Out of round; both are turned to one size.", teacher_);
    const double um_per_mark = school_.lathes.at(kLathe).dial_um_per_mark;
    std::vector<double> touch_mm;
    double size_mm = 0;
    for (const Drum& drum : drums_) {
      touch_mm.push_back(extreme(drum, false));
      size_mm = std::max(size_mm, extreme(drum, true) + 2 * drum.score_um / 1000 + 0.03);
    }
    for (std::size_t k = 0; k < parts_.size(); ++k) {
      clock_.pass(2400);
      Cut cut{.id = shop_.new_id(), .job_id = id_, .part_id = parts_[k].id};
      cut.outboard_marks = static_cast<std::int64_t>(std::ceil((size_mm - touch_mm[k]) * 500 / um_per_mark));
      cut.note = "damper strap on, balance weights left on";
      shop_.record_cut(cut, worker_);
      const double depth_um = static_cast<double>(cut.outboard_marks) * um_per_mark + 2 * random_.normal();
      drums_[k] = {.mean_mm = touch_mm[k] + 2 * depth_um / 1000,
                   .bell_um = 4 * random_.normal(),
                   .diameter = {{2, 4, 360 * random_.uniform()}},
                   .score_um = 0};
    }
  }

  /// Largest or least diameter anywhere on the band.
  static double extreme(const Drum& drum, bool largest) {
    double found = drum.diameter_at(0, 0);
    for (double angle_deg = 0; angle_deg < 180; angle_deg += 1) {
      for (const double share : {0.0, 1.0}) {
        const double mm = drum.diameter_at(angle_deg, share);
        found = largest ? std::max(found, mm) : std::min(found, mm);
      }
    }
    return found;
  }

  const DrumTale& tale_;
  Shop& shop_;
  Clock& clock_;
  Random& random_;
  const School& school_;
  const Kind& kind_;
  Gauge gauge_;
  Uuid id_;
  Uuid teacher_;
  Uuid worker_;
  std::vector<Part> parts_;
  std::vector<Drum> drums_;
};

}  // namespace

double Drum::diameter_at(double angle_deg, double depth_share) const {
  double um = bell_um * (0.5 - depth_share);
  for (const Wave& wave : diameter) {
    um += wave.amplitude_um * std::cos((wave.order * angle_deg - wave.phase_deg) * std::numbers::pi / 180);
  }
  return mean_mm + um / 1000;
}

void enter_drums(Shop& shop, Clock& clock, School& school) {
  Instrument gauge{.id = shop.new_id(), .name = "Drum gauge, 0.01 mm", .kind = InstrumentKind::drum_gauge};
  gauge.serial = "HL-B1";
  gauge.resolution = {10'000};
  gauge.mpe = {10'000};
  gauge.repeatability = {5'000};
  const auto today = std::chrono::floor<std::chrono::days>(clock.now);
  gauge.calibrated_on = Date(today - std::chrono::days(40));
  gauge.calibration_due_on = Date(today + std::chrono::days(325));
  clock.pass(60);
  school.drum_gauge = shop.put_instrument(gauge, school.teachers.front().id);
  for (const DrumText& text : kDrums) {
    Kind kind = kind_of(text);
    kind.known.id = shop.new_id();
    clock.pass(90);
    kind.known = shop.put_known_part(kind.known, school.teachers.front().id);
    school.drums.push_back(std::move(kind));
  }
}

Uuid live(const DrumTale& tale, Shop& shop, Clock& clock, Random& random, const School& school) {
  return DrumLife(tale, shop, clock, random, school).run();
}

}  // namespace brakewright::shop::demo
