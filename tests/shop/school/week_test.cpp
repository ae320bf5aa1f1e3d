#include "shop/school/week.hpp"

#include "shop/school/week_help.hpp"
#include "shop/school/week_waiting.hpp"
#include "store/sqlite_school.hpp"
#include "tests/shop/bench_scene.hpp"

namespace brakewright::shop {
namespace {

using std::chrono::minutes;

const UtcTime kMonday = UtcTime(std::chrono::sys_days(std::chrono::year(2026) / 3 / 2));
const UtcTime kNextMonday = kMonday + std::chrono::days(7);

template <class E, class Wanted>
const E* first(const std::vector<E>& all, Wanted&& wanted) {
  const auto found = std::find_if(all.begin(), all.end(), wanted);
  return found == all.end() ? nullptr : &*found;
}

/// A school over the bench, on a Wednesday at nine: every record is made by the test, so that each figure can be worked
/// out by hand.
class WeekBook : public BenchScene {
 protected:
  WeekBook() { student = shop.put_person({.id = id(), .name = "Bo Fern", .role = Role::student}, teacher).id; }

  WeekFigures week() { return week_of(shop, school, kMonday, kNextMonday); }

  Instrument second_micrometer() {
    Instrument other = shop.instruments().front();
    other.id = id();
    other.name = "Micrometer 2";
    return shop.put_instrument(other, teacher);
  }

  void read(const JobFile& file, std::int64_t point, const std::string& text, const Uuid& instrument) {
    NewReading reading = figure(file, point, text);
    reading.instrument_id = instrument;
    reading.confirmed = true;
    const auto present = shop.job_file(file.job.id).readings;
    for (const Reading& one : present) {
      if (one.point == point) reading.supersedes_id = one.id;
    }
    shop.add_reading(file.job.id, reading, student);
  }

  Uuid corner(std::int64_t number) {
    return shop.put_corner({.id = id(), .insert_id = insert.id, .number = number}, teacher).id;
  }

  void pass(const JobFile& file, const NewPass& made) { shop.record_pass(file.job.id, made, student); }

  void zero_check(const std::string& text_mm) {
    shop.add_zero_check(id(), micrometer, text_mm, Unit::mm, std::nullopt, teacher);
  }

  static double minutes_of(const WeekFigures& week, WeekWork work) {
    const WeekTime* line = first(week.time, [&](const WeekTime& one) { return one.work == work; });
    return line == nullptr ? -1 : line->minutes;
  }

  std::unique_ptr<SchoolStore> school_store = store::open_school(*store);
  School school{shop, *school_store, [this] { return clock; }};
  Uuid student;
};

TEST_F(WeekBook, GivesEachGapUnderAQuarterOfAnHourToTheWorkThatEndsIt) {
  const auto stack = ids_of(hang_a_stack());
  const JobFile file = open();
  clock += minutes(2);
  shop.change_part(file.parts[0], teacher);  // arrival: 2
  look_over(file);                           // arrival, at once: 0
  measure(file, 21.5, 0.04);                 // eight readings 5 s apart: 40 s
  clock += minutes(6);
  shop.decide(id(), file.job.id, Action::cut, "as the class was told", teacher);  // deciding: 6
  mount(file, stack, "as taught");                                                // a minute later: mounting 1
  prove(file, swing(file, "0.02"));                                               // another: mounting 2
  shop.record_pass(file.job.id, pass_of(file, 2, 2), teacher);                    // eight minutes: cutting 8
  clock += minutes(15);
  cut(file, 2, 2);  // somebody had gone away
  clock += minutes(3);
  tick(file, "washed");  // finishing: 3
  tick(file, "cloth_white");
  measure(file, 21.4, 0.002, Stage::after);  // 40 s more
  clock += minutes(4);
  shop.seal(file.job.id, teacher);  // closing: 4

  const WeekFigures figures = week();
  EXPECT_EQ(figures.jobs, 1);
  EXPECT_EQ(figures.sealed_jobs, 1);
  EXPECT_DOUBLE_EQ(minutes_of(figures, WeekWork::arrival), 2);
  EXPECT_DOUBLE_EQ(minutes_of(figures, WeekWork::measuring), 80.0 / 60);
  EXPECT_DOUBLE_EQ(minutes_of(figures, WeekWork::deciding), 6);
  EXPECT_DOUBLE_EQ(minutes_of(figures, WeekWork::mounting), 2);
  EXPECT_DOUBLE_EQ(minutes_of(figures, WeekWork::cutting), 8);
  EXPECT_DOUBLE_EQ(minutes_of(figures, WeekWork::finishing), 3);
  EXPECT_DOUBLE_EQ(minutes_of(figures, WeekWork::closing), 4);
  EXPECT_EQ(minutes_of(figures, WeekWork::refitting), -1) << "nobody refitted anything";
  for (const WeekTime& line : figures.time) {
    EXPECT_EQ(line.jobs, 1);
    EXPECT_EQ(line.job_numbers, JobNumbers{file.job.number});
  }
}

TEST_F(WeekBook, LeavesOutWhatLiesBeforeItAndFromItsEndOn) {
  const JobFile before = open();
  clock = kNextMonday - std::chrono::milliseconds(1);
  const JobFile in_it = open();
  clock = kNextMonday;
  open();
  const WeekFigures figures = week_of(shop, school, kMonday + std::chrono::days(3), kNextMonday);
  EXPECT_EQ(before.job.number, 1);
  EXPECT_EQ(figures.jobs, 1);
  ASSERT_EQ(figures.time.size(), 1U);
  EXPECT_EQ(figures.time[0].job_numbers, JobNumbers{in_it.job.number});
  EXPECT_EQ(refusal([&] { week_of(shop, school, kMonday, kMonday); }), "out_of_range");
}

TEST_F(WeekBook, CountsAReadingInDoubtOnceHoweverItCameIntoDoubt) {
  const Uuid other = second_micrometer().id;
  const JobFile file = open();
  for (std::int64_t point = 0; point < 8; ++point) read(file, point, "21.500", micrometer);
  read(file, 0, "21.501", micrometer);  // the first of point 0 was read again: 1 taken back
  read(file, 2, "25.000", micrometer);  // questioned, and that of point 2 read again: 2 taken back, 1 questioned
  read(file, 2, "21.500", micrometer);  // the questioned one read again: 3 taken back
  const JobFile second = open();
  for (std::int64_t point = 0; point < 8; ++point) read(second, point, "21.500", other);
  const JobFile third = open();
  for (std::int64_t point = 0; point < 2; ++point) read(third, point, "21.500", other);
  zero_check("-0.004");
  zero_check("0.002");

  const WeekFigures figures = week();
  ASSERT_EQ(figures.instruments.size(), 2U);
  const auto* worn = first(figures.instruments, [&](const auto& one) { return one.instrument_id == micrometer; });
  const auto* good = first(figures.instruments, [&](const auto& one) { return one.instrument_id == other; });
  ASSERT_TRUE(worn != nullptr && good != nullptr);
  EXPECT_EQ(worn->readings, 11);
  EXPECT_EQ(worn->taken_back, 3);
  EXPECT_EQ(worn->questioned, 1);
  EXPECT_EQ(worn->in_doubt, share_of(3, 11)) << "two read again, and the questioned one, which was read again as well";
  EXPECT_DOUBLE_EQ(worn->zero_error_um.value(), 4);
  EXPECT_FALSE(worn->stands_out) << "3 of 11 and 0 of 10 may be chance";
  EXPECT_EQ(worn->job_numbers, JobNumbers{file.job.number});
  EXPECT_EQ(good->readings, 10);
  EXPECT_EQ(good->in_doubt, share_of(0, 10));
  EXPECT_FALSE(good->stands_out);
  EXPECT_FALSE(good->zero_error_um);
  EXPECT_EQ(good->job_numbers, (JobNumbers{second.job.number, third.job.number}));

  const auto* reader = first(figures.people, [&](const auto& one) { return one.person_id == student; });
  ASSERT_TRUE(reader != nullptr);
  EXPECT_EQ(reader->readings, 21);
  EXPECT_EQ(reader->questioned, 1);
  EXPECT_EQ(reader->taken_back, 3);
  EXPECT_EQ(reader->jobs, 3);
  EXPECT_EQ(reader->job_numbers, (JobNumbers{1, 2, 3}));
  EXPECT_TRUE(std::none_of(reader->help.begin(), reader->help.end(), [](const WeekHelp& one) {
    return one.what == WeekHelpWith::reading;
  })) << "3 of 21 is under a fifth";
}

TEST_F(WeekBook, HoldsEachPieceToTheMountsThatItWasIn) {
  const auto stack = hang_a_stack();
  const Piece other_nut = hang(piece(PieceKind::nut, "N2", 20));
  const JobFile file = decided();
  auto ids = ids_of(stack);
  mount(file, ids);
  prove(file, swing(file, "0.020"));
  prove(file, swing(file, "0.050"));  // as much as the rule allows is not over it
  ids.back() = other_nut.id;
  mount(file, ids);
  NewMountProof bad = swing(file, "0.080");
  bad.goes_on = false;
  prove(file, bad);

  const WeekFigures figures = week();
  const auto of = [&](const Uuid& id) {
    return first(figures.pieces, [&](const WeekPiece& one) { return one.piece_id == id; });
  };
  const WeekPiece *clamp = of(stack[0].id), *nut = of(stack[5].id), *nut_2 = of(other_nut.id);
  ASSERT_TRUE(clamp != nullptr && nut != nullptr && nut_2 != nullptr);
  EXPECT_EQ(figures.proofs, 3);
  EXPECT_EQ(figures.proofs_over_rule, 1);
  EXPECT_EQ(clamp->proofs, 3);
  EXPECT_EQ(clamp->over_rule, 1);
  EXPECT_DOUBLE_EQ(clamp->mean_runout_um, 50) << "20, 50 and 80";
  EXPECT_EQ(clamp->over, share_of(1, 3));
  EXPECT_EQ(nut->proofs, 2);
  EXPECT_EQ(nut->over_rule, 0);
  EXPECT_DOUBLE_EQ(nut->mean_runout_um, 35) << "20 and 50";
  EXPECT_EQ(nut_2->proofs, 1);
  EXPECT_EQ(nut_2->over_rule, 1);
  EXPECT_DOUBLE_EQ(nut_2->mean_runout_um, 80);
  EXPECT_FALSE(nut_2->stands_out) << "one mount tells nothing";
  EXPECT_EQ(clamp->job_numbers, JobNumbers{file.job.number});
}

TEST_F(WeekBook, WorksOutTheMetalOfEachCornerFromRingFeedAndMarks) {
  iron.dial_um_per_mark = 25.4;
  iron.dial_inboard_um_per_mark = 20;
  shop.put_lathe(iron, teacher);
  const Uuid one = corner(1), two = corner(2);
  const JobFile file = decided(2);  // discs of 280 mm with a ring from 160 mm
  NewPass made = pass_of(file, 4, 2);
  made.outboard_corner_id = one;
  made.inboard_corner_id = two;
  pass(file, made);
  made = pass_of(file, 3, 0, 1);
  made.outboard_corner_id = one;
  made.inboard_corner_id = two;
  pass(file, made);
  made = pass_of(file, 9, 9);
  made.outboard_corner_id = one;
  made.outcome = PassOutcome::stopped;
  pass(file, made);

  const WeekFigures figures = week();
  ASSERT_EQ(figures.inserts.size(), 1U);
  const WeekInsert& told = figures.inserts[0];
  ASSERT_EQ(told.corner_use.size(), 2U);
  EXPECT_EQ(told.passes, 5) << "three edges of the first corner, two of the second";
  EXPECT_EQ(told.sharp_corners, 3);
  const WeekCorner &first_corner = told.corner_use[0], &second_corner = told.corner_use[1];
  // The ring: pi (140^2 - 80^2) = 41,469.02 mm2; at 0.1 mm a turn its spiral is 414.6902 m long.
  constexpr double kArea_mm2 = 41469.0230271;
  EXPECT_EQ(first_corner.number, 1);
  EXPECT_EQ(first_corner.passes, 3);
  EXPECT_EQ(first_corner.parts, 2);
  EXPECT_NEAR(first_corner.cut_m, 829.3805, 1e-4) << "two whole passes; the stopped one counts none";
  EXPECT_NEAR(first_corner.used_m, first_corner.cut_m, 1e-9);
  EXPECT_NEAR(first_corner.metal_cm3.value(), kArea_mm2 * (4 + 3) * 0.0254 / 1000, 1e-6) << "7.3732 cm3";
  EXPECT_EQ(second_corner.passes, 2);
  EXPECT_EQ(second_corner.parts, 2);
  EXPECT_NEAR(second_corner.cut_m, 414.6902, 1e-4) << "nothing was set on the second part's inboard face";
  EXPECT_NEAR(second_corner.metal_cm3.value(), kArea_mm2 * 2 * 0.020 / 1000, 1e-6) << "1.6588 cm3";
  EXPECT_NEAR(told.used_m, 829.3805 + 414.6902, 2e-4);
  EXPECT_EQ(first_corner.job_numbers, JobNumbers{file.job.number});
  const auto* worker = first(figures.people, [&](const auto& who) { return who.person_id == student; });
  ASSERT_TRUE(worker != nullptr);
  EXPECT_EQ(worker->stopped_passes, 1);
}

TEST_F(WeekBook, SaysNoMetalWhereTheRingIsNotKnown) {
  const Uuid one = corner(1);
  const JobFile file = open();
  look_over(file);
  measure(file, 21.5, 0.04);
  shop.decide(id(), file.job.id, Action::cut, "as the class was told", teacher);
  NewPass made = pass_of(file, 4, 2);
  made.outboard_corner_id = one;
  pass(file, made);
  const WeekFigures figures = week();
  const WeekCorner& told = figures.inserts.at(0).corner_use.at(0);
  EXPECT_EQ(told.passes, 1);
  EXPECT_EQ(told.parts, 1);
  EXPECT_EQ(told.cut_m, 0);
  EXPECT_FALSE(told.metal_cm3);
}

TEST_F(WeekBook, CountsWaitingForTheLatheOnlyWhileTheShopIsInUse) {
  const auto stack = ids_of(hang_a_stack());
  const JobFile one = decided(), two = decided(), three = decided();
  const auto join = [&](const JobFile& file) {
    const NewQueueEntry entry{.id = id(), .job_id = file.job.id, .person_id = student};
    school.join_queue(lathe, entry, student);
    return entry.id;
  };
  const UtcTime began = clock;
  join(one);
  clock = began + minutes(4);
  const Uuid left = join(two);
  clock = began + minutes(10);
  school.leave_queue(lathe, left, "measures again", student);  // waited 6
  clock = began + minutes(20);
  zero_check("0");  // in use until here
  clock = began + minutes(59);
  mount(one, stack);  // on the hour; waited 20, the rest of the hour nobody was there
  clock = began + minutes(70);
  join(three);
  clock = began + minutes(75);
  zero_check("0");  // still waits: 5
  const WeekFigures figures = week();
  ASSERT_EQ(figures.waiting.size(), 1U);
  EXPECT_EQ(figures.waiting[0].lathe_id, lathe);
  EXPECT_EQ(figures.waiting[0].jobs, 3);
  EXPECT_DOUBLE_EQ(figures.waiting[0].minutes, 6 + 20 + 5);
  EXPECT_DOUBLE_EQ(figures.waiting[0].longest_minutes, 20);
  EXPECT_EQ(figures.waiting[0].job_numbers, (JobNumbers{one.job.number, two.job.number, three.job.number}));
  EXPECT_TRUE(week_of(shop, school, kNextMonday, kNextMonday + std::chrono::days(7)).waiting.size() == 1)
      << "the third goes on waiting";
  EXPECT_EQ(week_of(shop, school, kNextMonday, kNextMonday + std::chrono::days(7)).waiting[0].minutes, 0)
      << "but nobody is there";
}

TEST_F(WeekBook, CountsPartsOfSealedJobsByWhatWasLastDecidedAndLeavesPracticeOut) {
  const auto seal_cut = [&](const JobFile& file, std::size_t parts) {
    for (std::size_t k = 0; k < parts; ++k) cut(file, 2, 2, k);
    measure(file, 21.4, 0.002, Stage::after);
    shop.seal(file.job.id, teacher);
  };
  const auto seal_as = [&](Action action, std::size_t parts) {
    const JobFile file = open(parts);
    look_over(file);
    measure(file, 21.5, 0.04);
    shop.decide(id(), file.job.id, Action::cut, "first thought", teacher);
    shop.decide(id(), file.job.id, action, "second thought", teacher);
    shop.seal(file.job.id, teacher);
    return file.job.number;
  };
  const JobFile pair = decided(2);
  seal_cut(pair, 2);
  const JobFile single = decided();
  seal_cut(single, 1);
  JobFile practice = decided();
  practice.job.complaint = Complaint::practice;
  shop.change_job(practice.job, teacher);
  seal_cut(practice, 1);
  decided();  // open still
  const auto replaced = seal_as(Action::replace, 2);
  const auto left = seal_as(Action::leave, 1);

  const WeekFigures figures = week();
  EXPECT_EQ(figures.jobs, 6);
  EXPECT_EQ(figures.sealed_jobs, 4);
  EXPECT_EQ(figures.parts_cut, 3);
  EXPECT_EQ(figures.parts_replaced, 2);
  EXPECT_EQ(figures.parts_left, 1);
  EXPECT_EQ(figures.cut_job_numbers, (JobNumbers{pair.job.number, single.job.number}));
  EXPECT_EQ(figures.replaced_job_numbers, JobNumbers{replaced});
  EXPECT_EQ(figures.left_job_numbers, JobNumbers{left});
  EXPECT_DOUBLE_EQ(money_saved(figures, 62.5, 18), 133.5) << "3 x (62.50 - 18)";
  EXPECT_DOUBLE_EQ(money_saved(figures, 10, 18), -24);
}

TEST_F(WeekBook, NamesTheHelpOfStudentsAloneAndTheRecordsThatSaySo) {
  const JobFile file = open();
  for (std::int64_t point = 0; point < 8; ++point) read(file, point, "21.500", micrometer);
  read(file, 0, "21.501", micrometer);
  read(file, 1, "21.501", micrometer);  // 2 of 10 taken back: a fifth
  const Competence mounting = school.put_competence({.id = id(), .position = 1, .name = "Mount a disc"}, teacher);
  school.add_evidence(
      {.id = id(), .competence_id = mounting.id, .person_id = student, .level = EvidenceLevel::with_help}, student);
  const WeekFigures figures = week();
  const auto* told = first(figures.people, [&](const auto& one) { return one.person_id == student; });
  ASSERT_TRUE(told != nullptr);
  ASSERT_EQ(told->help.size(), 2U);
  EXPECT_EQ(told->help[0].what, WeekHelpWith::reading);
  EXPECT_EQ(told->help[0].text, "2 of 10 readings were questioned, taken back or read again");
  EXPECT_EQ(told->help[0].job_numbers, JobNumbers{file.job.number});
  EXPECT_EQ(told->help[1].what, WeekHelpWith::competence);
  EXPECT_EQ(told->help[1].text, "with help so far: Mount a disc");
  school.add_evidence({.id = id(), .competence_id = mounting.id, .person_id = student, .level = EvidenceLevel::alone},
                      student);
  EXPECT_EQ(first(week().people, [&](const auto& one) { return one.person_id == student; })->help.size(), 1U);
}

TEST_F(WeekBook, TellsOpenSafetyPointsOfThePresentWeekAlone) {
  school.put_safety_point({.id = id(),
                           .position = 1,
                           .question = "What is off before a hand goes near?",
                           .choices = {"The light", "All"},
                           .right_choice = 1,
                           .reason = "It starts without asking."},
                          teacher);
  const auto help = [&](const WeekFigures& figures) {
    return first(figures.people, [&](const auto& one) { return one.person_id == student; })->help;
  };
  ASSERT_EQ(help(week()).size(), 1U);
  EXPECT_EQ(help(week())[0].what, WeekHelpWith::safety);
  EXPECT_EQ(help(week())[0].text, "0 of 1 safety points answered right");
  EXPECT_TRUE(help(week_of(shop, school, kMonday - std::chrono::days(7), kMonday)).empty());
}

class WeekHelpOf : public testing::Test {
 protected:
  std::vector<WeekHelpWith> found() {
    std::vector<WeekHelpWith> kinds;
    for (const WeekHelp& one : help_of({person, jobs, permits, marks, {}, {}, true, kMonday, kNextMonday})) {
      kinds.push_back(one.what);
      texts.push_back(one.text);
    }
    return kinds;
  }

  void permit_until(std::chrono::year_month_day day) {
    permits = {PermitState{.stands = true, .permit = Permit{.lapses_on = day}}};
  }

  WeekPerson person;
  HelpJobs jobs;
  std::vector<PermitState> permits;
  std::vector<StudyMark> marks;
  std::vector<std::string> texts;
};

TEST_F(WeekHelpOf, TellsAPermitThatLapsesFromTheWeeksBeginningToTwoWeeksAfterIt) {
  using namespace std::chrono;
  permit_until(2026y / March / 1);
  EXPECT_TRUE(found().empty()) << "lapsed before";
  permit_until(2026y / March / 2);
  EXPECT_EQ(found(), std::vector{WeekHelpWith::permit});
  EXPECT_EQ(texts.back(), "the permit's last day is 2026-03-02");
  permit_until(2026y / March / 23);
  EXPECT_EQ(found(), std::vector{WeekHelpWith::permit});
  permit_until(2026y / March / 24);
  EXPECT_TRUE(found().empty());
  permit_until(2026y / March / 9);
  permits[0].permit->withdrawn_at = kMonday;
  EXPECT_TRUE(found().empty()) << "withdrawn";
}

TEST_F(WeekHelpOf, TellsOpenSafetyPointsWhereThereAreAny) {
  PermitState state;
  state.needs = {{.what = PermitNeedKind::safety_points, .done = 3, .of = 4, .text = "3 of 4 safety points answered"}};
  permits = {state};
  EXPECT_EQ(found(), std::vector{WeekHelpWith::safety});
  permits[0].needs[0].done = 4;
  EXPECT_TRUE(found().empty());
}

TEST_F(WeekHelpOf, TellsWhatDidNotGoWellAndNothingElse) {
  EXPECT_TRUE(found().empty());
  person.readings = 9;
  jobs.in_doubt = 9;
  EXPECT_TRUE(found().empty()) << "nine readings are too few";
  person.readings = 51;
  jobs.in_doubt = 10;
  EXPECT_TRUE(found().empty()) << "10 of 51 is under a fifth";
  marks = {StudyMark{.closed_at = kMonday, .parts_within = 2, .parts_marked = 4}};
  EXPECT_TRUE(found().empty()) << "half of them";
  marks = {StudyMark{.closed_at = kNextMonday, .parts_within = 0, .parts_marked = 4}};
  EXPECT_TRUE(found().empty()) << "closed later";
  marks = {StudyMark{.closed_at = kMonday, .parts_within = 1, .parts_marked = 4}};
  person.decided_otherwise = 1;
  person.stopped_passes = 1;
  EXPECT_EQ(found(), (std::vector{WeekHelpWith::measuring, WeekHelpWith::deciding, WeekHelpWith::cutting}));
  EXPECT_EQ(texts.at(texts.size() - 3), "1 of 4 reference parts within their uncertainty");
  EXPECT_EQ(texts.at(texts.size() - 2), "1 decided otherwise than computed");
  EXPECT_EQ(texts.back(), "1 pass stopped before the end");
}

TEST(WeekShare, HasWilsonsInterval) {
  // By hand for 1 of 10: centre (0.1 + 3.8415/20) / 1.38415 = 0.21101, half 1.95996 sqrt(0.009 + 0.0096036) / 1.38415
  // = 0.19313.
  const Share tenth = share_of(1, 10);
  EXPECT_NEAR(tenth.low95, 0.0179, 5e-5);
  EXPECT_NEAR(tenth.high95, 0.4042, 6e-5);
  // R. G. Newcombe, Two-sided confidence intervals for the single proportion, Statistics in Medicine 17 (1998), table
  // I, method 3; its figures from memory.
  EXPECT_NEAR(share_of(81, 263).low95, 0.2553, 5e-5);
  EXPECT_NEAR(share_of(81, 263).high95, 0.3662, 5e-5);
  EXPECT_NEAR(share_of(15, 148).low95, 0.0624, 5e-5);
  EXPECT_NEAR(share_of(15, 148).high95, 0.1605, 5e-5);
  EXPECT_EQ(share_of(0, 20).low95, 0);
  EXPECT_NEAR(share_of(0, 20).high95, 0.1611, 5e-5);
  EXPECT_EQ(share_of(0, 0), (Share{0, 0, 0, 1}));
}

TEST(WeekShare, StandsOutOnlyBeyondChanceAndOnEnough) {
  // By hand: 6 of 20 has [0.1455, 0.5190], 0 of 40 has [0, 0.0876]; 0.3 - sqrt(0.1545^2 + 0.0876^2) = 0.122.
  EXPECT_TRUE(stands_out(share_of(6, 20), share_of(0, 40)));
  // 3 of 11 has [0.0975, 0.5656], 0 of 10 has [0, 0.2775]; 0.2727 - sqrt(0.1752^2 + 0.2775^2) = -0.055.
  EXPECT_FALSE(stands_out(share_of(3, 11), share_of(0, 10)));
  EXPECT_FALSE(stands_out(share_of(1, 25), share_of(0, 28)));
  EXPECT_FALSE(stands_out(share_of(0, 40), share_of(6, 20)));
  EXPECT_FALSE(stands_out(share_of(9, 9), share_of(0, 100))) << "too few";
  EXPECT_FALSE(stands_out(share_of(100, 100), share_of(0, 9))) << "too few to hold it against";
  // Newcombe (1998), table II, method 10, from memory: 56 of 70 and 48 of 80 differ by 0.0524 to 0.3339, above 0.
  EXPECT_TRUE(stands_out(share_of(56, 70), share_of(48, 80)));
}

}  // namespace
}  // namespace brakewright::shop
