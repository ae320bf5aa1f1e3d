#include "shop/demo/school.hpp"

#include <array>
#include <optional>

#include "shop/demo/iron.hpp"

namespace brakewright::shop::demo {
namespace {

Limit limit(const char* text, Unit unit, LimitSource source, const char* note = "") {
  return {parse_length(text, unit).typed, source, note};
}

struct KindText {
  const char* name;
  Axle axle;
  bool vented;
  Unit unit;
  const char* nominal;
  const char* machine_to;
  const char* discard;
  const char* variation;
  const char* runout;
  const char* scoring;
  const char* diameter;
  const char* ring_inner;
  std::int64_t studs;
  /// hubless: bore, flange, inner and outer diameter of the flat; integral hub: length, inner race, outer race
  std::array<const char*, 4> seat;
};

// Invented parts; the figures lie where public tables of rotors have theirs.
constexpr std::array kKinds{
    KindText{"saloon front, vented, 22 mm",
             Axle::front,
             true,
             Unit::mm,
             "22",
             "20.4",
             "20",
             "0.015",
             "0.05",
             "0.5",
             "256",
             "154",
             5,
             {"61", "7", "80", "138"}},
    KindText{"estate front, vented, 25 mm",
             Axle::front,
             true,
             Unit::mm,
             "25",
             "23.4",
             "23",
             "0.012",
             "0.05",
             "0.5",
             "288",
             "176",
             5,
             {"65", "8", "84", "142"}},
    KindText{"hatchback rear, solid, 9 mm",
             Axle::rear,
             false,
             Unit::mm,
             "9",
             "7.5",
             "7.2",
             "0.02",
             "0.06",
             "0.4",
             "240",
             "150",
             4,
             {"46", "44", "38", nullptr}},
    KindText{"van front, vented, 28 mm",
             Axle::front,
             true,
             Unit::mm,
             "28",
             "26.4",
             "26",
             "0.02",
             "0.07",
             "0.8",
             "300",
             "190",
             6,
             {"71", "9", "92", "158"}},
    KindText{"pick-up front, vented, 1.10 in",
             Axle::front,
             true,
             Unit::in,
             "1.102",
             "1.040",
             "1.025",
             "0.0006",
             "0.003",
             "0.020",
             "11.85",
             "7.4",
             6,
             {"3.2", "2.1", "1.5", nullptr}},
    KindText{"small car front, solid, 12 mm",
             Axle::front,
             false,
             Unit::mm,
             "12",
             "10.4",
             "10",
             "0.015",
             "0.05",
             "0.4",
             "238",
             "148",
             4,
             {"59", "6", "76", "130"}},
    // Its bore is wider than any cone of the pegboard reaches.
    KindText{"old van rear, vented, 20 mm",
             Axle::rear,
             true,
             Unit::mm,
             "20",
             "18.4",
             "18",
             "0.02",
             "0.07",
             "0.6",
             "278",
             "188",
             5,
             {"95", "8", "108", "162"}},
};

void set_seat(Kind& kind, const KindText& text) {
  Seat& seat = kind.known.seat;
  const auto typed = [&](const char* figure) { return parse_length(figure, text.unit).typed; };
  seat.ring_inner = typed(text.ring_inner);
  if (text.seat[3] == nullptr) {
    kind.construction = Construction::integral_hub;
    seat.hub_length = typed(text.seat[0]);
    seat.inner_race = typed(text.seat[1]);
    seat.outer_race = typed(text.seat[2]);
    return;
  }
  seat.bore = typed(text.seat[0]);
  seat.flange = typed(text.seat[1]);
  seat.flat_inner = typed(text.seat[2]);
  seat.flat_outer = typed(text.seat[3]);
}

Kind kind_of(const KindText& text) {
  Kind kind;
  set_seat(kind, text);
  kind.axle = text.axle;
  kind.known.name = text.name;
  kind.known.vented = text.vented;
  kind.known.studs = text.studs;
  kind.known.outer_diameter = parse_length(text.diameter, text.unit).typed;
  Limits& limits = kind.known.limits;
  const auto service = LimitSource::service_information;
  limits.nominal = limit(text.nominal, text.unit, service, "data sheet in the shop's folder");
  limits.machine_to = limit(text.machine_to, text.unit, service, "data sheet in the shop's folder");
  limits.discard = limit(text.discard, text.unit, LimitSource::cast_on_part);
  limits.variation = limit(text.variation, text.unit, service, "data sheet in the shop's folder");
  limits.runout = limit(text.runout, text.unit, service, "data sheet in the shop's folder");
  limits.scoring = limit(text.scoring, text.unit, LimitSource::house_rule);
  limits.finish_ra = limit("2.5 um", Unit::mm, LimitSource::house_rule);
  kind.nominal_mm = limits.nominal->value.value.mm();
  kind.machine_to_mm = limits.machine_to->value.value.mm();
  kind.discard_mm = limits.discard->value.value.mm();
  return kind;
}

Instrument instrument(const char* name, InstrumentKind kind, const char* serial, std::int64_t resolution_nm,
                      std::int64_t mpe_nm, std::int64_t repeatability_nm, Unit unit) {
  Instrument made;
  made.name = name;
  made.kind = kind;
  made.serial = serial;
  made.resolution = {resolution_nm};
  made.mpe = {mpe_nm};
  made.repeatability = {repeatability_nm};
  made.default_unit = unit;
  return made;
}

template <std::size_t N>
const char* pick(const std::array<const char*, N>& from, Random& random) {
  return from.at(random.below(N));
}

void enter_people(Shop& shop, Clock& clock, School& school) {
  static constexpr std::array kTeachers{"Ines Marrow", "Daniel Oseley"};
  static constexpr std::array kStudents{"Amara Lindholt",  "Jonas Tevel",   "Priya Nandall", "Callum Hartrey",
                                        "Sofia Brandting", "Yusuf Adanesh", "Mei Tarrow"};
  const auto enter = [&](const char* name, Role role) {
    Person person{.id = shop.new_id(), .name = name, .role = role};
    const Uuid by = school.teachers.empty() ? person.id : school.teachers.front().id;
    clock.pass(40);
    return shop.put_person(person, by);
  };
  for (const char* name : kTeachers) school.teachers.push_back(enter(name, Role::teacher));
  school.hands.push_back(enter("Petra Holubek", Role::lead_hand));
  for (const char* name : kStudents) school.hands.push_back(enter(name, Role::student));
  enter("Visitor", Role::visitor);
}

void enter_instruments(Shop& shop, Clock& clock, School& school) {
  using enum InstrumentKind;
  const Uuid by = school.teachers.front().id;
  const auto today = std::chrono::floor<std::chrono::days>(clock.now);
  const auto enter = [&](Instrument made, int due_in_days) {
    made.id = shop.new_id();
    made.calibrated_on = Date(today - std::chrono::days(365 - due_in_days));
    made.calibration_due_on = Date(today + std::chrono::days(due_in_days));
    clock.pass(60);
    return shop.put_instrument(made, by);
  };
  school.fine.push_back(
      enter(instrument("Disc micrometer 1, 0.001 mm", micrometer, "HL-M1", 1'000, 3'000, 1'200, Unit::mm), 400));
  school.fine.push_back(
      enter(instrument("Disc micrometer 2, 0.001 mm", micrometer, "HL-M2", 1'000, 4'000, 1'500, Unit::mm), 330));
  school.fine.push_back(
      enter(instrument("Disc micrometer 3, 0.0001 in", micrometer, "HL-M3", 2'540, 3'810, 1'800, Unit::in), 420));
  school.coarse =
      enter(instrument("Vernier micrometer, 0.01 mm", micrometer, "HL-M4", 10'000, 6'000, 4'000, Unit::mm), 90);
  school.indicator =
      enter(instrument("Dial indicator, 0.01 mm", dial_indicator, "HL-D1", 10'000, 12'000, 3'000, Unit::mm), 380);
  enter(instrument("Dial indicator, 0.0005 in", dial_indicator, "HL-D2", 12'700, 12'700, 4'000, Unit::in), 380);
  school.depth_gauge =
      enter(instrument("Depth gauge with point, 0.01 mm", depth_gauge, "HL-T1", 10'000, 20'000, 8'000, Unit::mm), 380);
  school.tester = enter(instrument("Roughness tester", roughness_tester, "HL-R1", 10, 100, 50, Unit::mm), 300);
}

struct LatheText {
  const char* name;
  double dial_um;
  std::optional<double> dial_inboard_um;
  DialReads reads;
  TrueDial truth;
  double dial_sd_um, mount_um;
  Length arbor, thread_start, tip;
  std::vector<double> speeds_rpm, feeds_mm_per_rev;
  const char* note;
};

void enter_lathes(Shop& shop, Clock& clock, School& school) {
  const std::array texts{
      LatheText{"Lathe 1, window side",
                20,
                25,
                DialReads::depth,
                {20, 25},
                3,
                25,
                {25'400'000},
                {110'000'000},
                {190'000'000},
                {80, 110, 150},
                {0.05, 0.1, 0.15, 0.2},
                "dial in 0.02 mm of depth outboard, 0.025 mm inboard: its screw came from another lathe"},
      LatheText{"Lathe 2, middle",
                25.4,
                std::nullopt,
                DialReads::depth,
                {24.5, 25.3},
                4,
                30,
                {25'400'000},
                {108'000'000},
                {188'000'000},
                {100, 150},
                {0.051, 0.102, 0.203},
                "dials in 0.001 in of depth"},
      LatheText{"Lathe 3, by the door",
                50,
                std::nullopt,
                DialReads::diameter,
                {50, 50},
                8,
                45,
                {28'000'000},
                {105'000'000},
                {185'000'000},
                {90, 130},
                {0.08, 0.12},
                "dials in 0.1 mm of diameter, which is 0.05 mm of depth; oldest of the three"},
  };
  for (const LatheText& text : texts) {
    Lathe lathe{.id = shop.new_id(), .name = text.name};
    lathe.dial_um_per_mark = text.dial_um;
    lathe.dial_inboard_um_per_mark = text.dial_inboard_um;
    lathe.dial_reads = text.reads;
    lathe.dial_sd_um = text.dial_sd_um;
    lathe.mount_runout_um = text.mount_um;
    lathe.arbor_diameter = text.arbor;
    lathe.thread_start = text.thread_start;
    lathe.tip = text.tip;
    lathe.travel = Length{110'000'000};
    lathe.speeds_rpm = text.speeds_rpm;
    lathe.feeds_mm_per_rev = text.feeds_mm_per_rev;
    lathe.note = text.note;
    clock.pass(60);
    school.lathes.push_back(shop.put_lathe(lathe, school.teachers.front().id));
    school.true_dials.push_back(text.truth);
  }
}

}  // namespace

Kind example_kind() { return kind_of(kKinds[1]); }

School found_school(Shop& shop, Clock& clock) {
  School school;
  enter_people(shop, clock, school);
  Settings settings = shop.settings();
  settings.shop_name = "Harrow Lane Technical School";
  settings.house_allowance = Length{380'000};
  settings.wear_mm_per_10000_km = 0.12;
  shop.change_settings(settings, school.teachers.front().id);
  enter_instruments(shop, clock, school);
  enter_lathes(shop, clock, school);
  enter_iron(shop, clock, school);
  for (const KindText& text : kKinds) {
    Kind kind = kind_of(text);
    kind.known.id = shop.new_id();
    clock.pass(90);
    kind.known = shop.put_known_part(kind.known, school.teachers.front().id);
    school.kinds.push_back(std::move(kind));
  }
  return school;
}

std::string draw_vehicle(Random& random) {
  static constexpr std::array kColours{"blue", "silver", "white",    "black", "dark green",
                                       "red",  "grey",   "burgundy", "sand"};
  static constexpr std::array kBodies{"estate", "saloon", "hatchback", "van", "pick-up", "small car", "people carrier"};
  static constexpr std::array kEngines{"1.2 petrol", "1.6 petrol", "2.0 diesel", "1.5 diesel", "hybrid", "2.2 diesel"};
  return std::string(pick(kColours, random)) + " " + pick(kBodies, random) + ", " + pick(kEngines, random);
}

std::string draw_customer(Random& random) {
  static constexpr std::array kCustomers{"Mrs Abarand",      "Mr Thistlewood", "Staff car pool", "Ms Quillen",
                                         "Dr Varga-Nash",    "Mr Oyelarin",    "Caretaker",      "Parent, year 10",
                                         "Mrs Pellingbrook", "Workshop car 3"};
  return pick(kCustomers, random);
}

std::string draw_note(Complaint complaint, Random& random) {
  static constexpr std::array kPulsation{"pedal pulses from 80 km/h down", "wheel shakes when braking downhill",
                                         "shake came back 5,000 km after new discs",
                                         "pulses when warm, less when cold"};
  static constexpr std::array kNoise{"grinds at low speed", "squeals in the morning", "scrapes, outer pad was down"};
  static constexpr std::array kOther{"", "", "at the yearly check", "before a long trip"};
  if (complaint == Complaint::pulsation) return pick(kPulsation, random);
  if (complaint == Complaint::noise) return pick(kNoise, random);
  return pick(kOther, random);
}

}  // namespace brakewright::shop::demo
