#include "tests/store/contract.hpp"

#include <unistd.h>

#include <filesystem>

#include "store/open.hpp"
#include "tests/shop/examples.hpp"
#include "tests/store/small_shop.hpp"

namespace brakewright::shop {
namespace {

using namespace small_shop;

INSTANTIATE_TEST_SUITE_P(Sqlite, StoreContract,
                         testing::Values(StoreMaker{"InMemory", [] { return store::open_in_memory(); }},
                                         StoreMaker{"File",
                                                    [] {
                                                      static int count = 0;
                                                      const auto file = std::filesystem::path(testing::TempDir()) /
                                                                        ("contract-" + std::to_string(getpid()) + "-" +
                                                                         std::to_string(count++)) /
                                                                        "shop.sqlite";
                                                      return store::open_store({.file = file, .backups = {}});
                                                    }}),
                         [](const auto& made) { return made.param.name; });

TEST_P(StoreContract, AnEmptyShopHasDefaultsAndNothingElse) {
  EXPECT_EQ(store().settings(), Settings{});
  EXPECT_TRUE(store().people().empty());
  EXPECT_EQ(store().jobs({}).total, 0);
  EXPECT_EQ(store().last_seq(), 0);
  EXPECT_FALSE(store().job_file(id(10)));
  EXPECT_FALSE(store().job_file_by_number(1));
}

TEST_P(StoreContract, EveryEntityComesBackAsItWasPut) {
  fill(store());
  for (std::uint64_t seed = 1; seed <= 50; ++seed) {
    examples::Filler filler(seed);
    const auto settings = filler.make<Settings>();
    auto instrument = filler.make<Instrument>();
    auto lathe = filler.make<Lathe>();
    auto known = filler.make<KnownPart>();
    auto zero = filler.make<ZeroCheck>();
    auto job = filler.make<Job>();
    auto part = filler.make<Part>();
    auto plan = filler.make<MeasuringPlan>();
    auto reading = filler.make<Reading>();
    auto finding = filler.make<Finding>();
    auto decision = filler.make<Decision>();
    auto cut = filler.make<Cut>();
    auto mount = filler.make<Mount>();
    auto proof = filler.make<MountProof>();
    auto cut_plan = filler.make<CutPlan>();
    auto pass = filler.make<Pass>();
    auto step = filler.make<BenchStep>();
    auto piece = filler.make<Piece>();
    auto booking = filler.make<Booking>();
    auto insert = filler.make<Insert>();
    auto corner = filler.make<Corner>();
    auto band = filler.make<Band>();
    auto plate = filler.make<TaperPlate>();
    auto refit = filler.make<Refit>();
    auto amendment = filler.make<Amendment>();
    const Uuid who = id(1);
    zero.instrument_id = instrument.id;
    zero.job_id = job.id;
    zero.by_person_id = who;
    job.worker_person_id = who;
    job.lathe_id = lathe.id;
    job.opened_by_person_id = who;
    job.sealed_by_person_id = who;
    part.job_id = job.id;
    part.known_part_id = known.id;
    plan.part_id = part.id;
    plan.thickness_instrument_id = plan.runout_instrument_id = instrument.id;
    reading.job_id = job.id;
    reading.part_id = part.id;
    reading.instrument_id = instrument.id;
    reading.zero_check_id = zero.id;
    reading.supersedes_id.reset();
    reading.by_person_id = who;
    reading.withdrawn_by_person_id = who;
    finding.job_id = decision.job_id = cut.job_id = amendment.job_id = job.id;
    finding.part_id = cut.part_id = part.id;
    finding.by_person_id = decision.by_person_id = cut.by_person_id = amendment.by_person_id = who;
    finding.withdrawn_by_person_id.reset();
    cut.lathe_id.reset();
    mount.job_id = proof.job_id = cut_plan.job_id = pass.job_id = step.job_id = job.id;
    mount.part_id = proof.part_id = cut_plan.part_id = pass.part_id = step.part_id = part.id;
    mount.by_person_id = proof.by_person_id = cut_plan.by_person_id = pass.by_person_id = step.by_person_id = who;
    mount.lathe_id = cut_plan.lathe_id = lathe.id;
    cut_plan.insert_id = corner.insert_id = insert.id;
    refit.job_id = job.id;
    refit.part_id = part.id;
    refit.plate_id = plate.id;
    refit.by_person_id = who;
    pass.plan_id = cut_plan.id;
    pass.outboard_corner_id = pass.inboard_corner_id = corner.id;
    booking.piece_id = piece.id;
    booking.job_id = job.id;
    booking.by_person_id = who;
    store().transact([&] {
      store().put(settings);
      job.number = store().next_job_number();
      store().put(reading);  // references may come before what they refer to
      store().put(instrument);
      store().put(lathe);
      store().put(known);
      store().put(zero);
      store().put(job);
      store().put(part);
      store().put(plan);
      store().put(finding);
      store().put(decision);
      store().put(mount);
      store().put(proof);
      store().put(cut_plan);
      store().put(pass);
      store().put(step);
      store().put(piece);
      store().put(booking);
      store().put(insert);
      store().put(corner);
      store().put(band);
      store().put(plate);
      store().put(refit);
      store().put(cut);
      store().put(amendment);
    });
    const JobFile wanted{.job = job,
                         .parts = {part},
                         .plans = {plan},
                         .readings = {reading},
                         .findings = {finding},
                         .decisions = {decision},
                         .mounts = {mount},
                         .mount_proofs = {proof},
                         .cut_plans = {cut_plan},
                         .passes = {pass},
                         .bench_steps = {step},
                         .cuts = {cut},
                         .refits = {refit},
                         .amendments = {amendment}};
    EXPECT_EQ(store().job_file(job.id), wanted);
    EXPECT_EQ(store().job_file_by_number(job.number), wanted);
    EXPECT_EQ(store().settings(), settings);
    EXPECT_EQ(store().instruments().back(), instrument);
    EXPECT_EQ(store().lathes().back(), lathe);
    EXPECT_EQ(store().pieces().back(), piece);
    EXPECT_EQ(store().bookings_of(piece.id), std::vector{booking});
    EXPECT_EQ(store().booking(booking.id), booking);
    EXPECT_EQ(store().last_bookings().back(), booking);
    EXPECT_EQ(store().inserts().back(), insert);
    const auto corners = store().corners();
    EXPECT_NE(std::find(corners.begin(), corners.end(), corner), corners.end());
    EXPECT_EQ(store().bands().back(), band);
    EXPECT_EQ(store().taper_plates().back(), plate);
    EXPECT_EQ(store().zero_checks(instrument.id), std::vector{zero});
    EXPECT_EQ(store().reading(reading.id), reading);
    const auto known_parts = store().known_parts("", 500);
    EXPECT_NE(std::find(known_parts.begin(), known_parts.end(), known), known_parts.end());
  }
}

TEST_P(StoreContract, PuttingAgainReplacesWhatMayChange) {
  fill(store());
  auto renamed = person();
  renamed.name = "Maya Okonjo-Reid";
  store().transact([&] { store().put(renamed); });
  EXPECT_EQ(store().people(), std::vector{renamed});
}

TEST_P(StoreContract, WorkThatThrowsLeavesNothingBehind) {
  fill(store());
  EXPECT_THROW(store().transact([&] {
    store().put(reading(30, id(10), id(20)));
    store().append(change(40, id(30), id(10)));
    throw std::runtime_error("changed my mind");
  }),
               std::runtime_error);
  EXPECT_FALSE(store().reading(id(30)));
  EXPECT_EQ(store().last_seq(), 0);
  store().transact([&] { store().put(reading(30, id(10), id(20))); });
  EXPECT_TRUE(store().reading(id(30)));
}

TEST_P(StoreContract, ATransactionWithinAnotherIsPartOfIt) {
  fill(store());
  EXPECT_THROW(store().transact([&] {
    store().transact([&] { store().put(reading(30, id(10), id(20))); });
    throw std::runtime_error("changed my mind");
  }),
               std::runtime_error);
  EXPECT_FALSE(store().reading(id(30)));
}

TEST_P(StoreContract, WritingOutsideATransactionIsAProgramsFault) {
  EXPECT_THROW(store().put(person()), std::logic_error);
  EXPECT_THROW(store().append(change(40, id(30), {})), std::logic_error);
}

TEST_P(StoreContract, AReferenceToNothingIsRefusedAtTheEnd) {
  fill(store());
  EXPECT_THROW(store().transact([&] { store().put(reading(30, id(10), id(21))); }), StoreError);
  EXPECT_FALSE(store().reading(id(30)));
}

TEST_P(StoreContract, AReadingIsNeverChangedOnlyWithdrawn) {
  fill(store());
  auto kept = reading(30, id(10), id(20));
  store().transact([&] { store().put(kept); });
  auto withdrawn = kept;
  withdrawn.withdrawn_at = kMorning;
  withdrawn.withdrawn_by_person_id = id(1);
  store().transact([&] { store().put(withdrawn); });
  EXPECT_EQ(store().reading(id(30)), withdrawn);
  auto forged = withdrawn;
  forged.value = parse_length("25.00", Unit::mm).typed;
  EXPECT_THROW(store().transact([&] { store().put(forged); }), StoreError);
  EXPECT_EQ(store().reading(id(30)), withdrawn);
}

TEST_P(StoreContract, WhatWasDecidedIsPutOnce) {
  fill(store());
  const Decision decision{
      .id = id(50), .job_id = id(10), .computed_json = "{}", .reason = "", .by_person_id = id(1), .at = kMorning};
  store().transact([&] { store().put(decision); });
  EXPECT_THROW(store().transact([&] { store().put(decision); }), StoreError);
}

TEST_P(StoreContract, TheJournalCountsUpByOneAndIsReadFromAnywhere) {
  fill(store());
  store().transact([&] { store().append(change(100, id(30), {})); });
  const std::int64_t first = store().last_seq();  // a shop with a key names it behind the first entry
  for (std::uint32_t k = 1; k <= 5; ++k) {
    store().transact([&] {
      EXPECT_EQ(store().append(change(100 + k, id(30), k % 2 == 0 ? std::optional(id(10)) : std::nullopt)).seq,
                first + k);
    });
  }
  EXPECT_EQ(store().last_seq(), first + 5);
  const auto later = store().changes(first + 2, 2, {});
  ASSERT_EQ(later.size(), 2U);
  EXPECT_EQ(later[0].seq, first + 3);
  EXPECT_EQ(later[1].seq, first + 4);
  const auto of_job = store().changes(0, 100, id(10));
  ASSERT_EQ(of_job.size(), 2U);
  EXPECT_EQ(of_job[0].seq, first + 2);
  EXPECT_EQ(store().job_file(id(10))->seq, first + 4);
}

TEST_P(StoreContract, JobNumbersCountUpAndANumberThatWasNotUsedIsGivenAgain) {
  fill(store());
  store().transact([&] { EXPECT_EQ(store().next_job_number(), 2); });
  EXPECT_THROW(store().transact([&] {
    EXPECT_EQ(store().next_job_number(), 3);
    throw std::runtime_error("");
  }),
               std::runtime_error);
  store().transact([&] { EXPECT_EQ(store().next_job_number(), 3); });
}

TEST_P(StoreContract, ReadingsComeInOrderOfReceipt) {
  fill(store());
  for (std::uint32_t k = 9; k > 0; --k) store().transact([&] { store().put(reading(100 + k, id(10), id(20))); });
  const auto file = store().job_file(id(10));
  ASSERT_EQ(file->readings.size(), 9U);
  for (std::uint32_t k = 0; k < 9; ++k) EXPECT_EQ(file->readings[k].id, id(109 - k));
}

/// Numbers of the jobs that a search finds, in its order.
std::vector<std::int64_t> found(Store& store, const std::string& words, std::optional<JobState> state = {}) {
  std::vector<std::int64_t> numbers;
  const auto page = store.jobs({.state = state, .words = words});
  for (const auto& line : page.lines) numbers.push_back(line.job.number);
  EXPECT_EQ(page.total, static_cast<std::int64_t>(numbers.size()));
  return numbers;
}

TEST_P(StoreContract, ASearchWantsAllWordsEachFromItsBeginning) {
  fill(store());
  auto second = job(11, 2, "Grey van, 2.0 petrol");
  second.brought_by = "Zo\xC3\xAB Lindqvist";
  second.worker_person_id.reset();
  second.state = JobState::sealed;
  second.complaint = Complaint::pad_change;
  store().transact([&] { store().put(second); });
  using Numbers = std::vector<std::int64_t>;
  EXPECT_EQ(found(store(), ""), (Numbers{2, 1}));
  EXPECT_EQ(found(store(), "   \t "), (Numbers{2, 1}));
  EXPECT_EQ(found(store(), "2.0"), (Numbers{2, 1}));
  EXPECT_EQ(found(store(), "est"), (Numbers{1}));
  EXPECT_EQ(found(store(), "BLUE dies"), (Numbers{1}));
  EXPECT_EQ(found(store(), "blue petrol"), (Numbers{}));
  EXPECT_EQ(found(store(), "maya"), (Numbers{1}));
  EXPECT_EQ(found(store(), "zoe"), (Numbers{2}));
  EXPECT_EQ(found(store(), "pad"), (Numbers{2}));
  EXPECT_EQ(found(store(), "shakes 80"), (Numbers{2, 1}));
  EXPECT_EQ(found(store(), "shakes 80", JobState::sealed), (Numbers{2}));
  EXPECT_EQ(found(store(), "", JobState::open), (Numbers{1}));
}

TEST_P(StoreContract, ASearchTakesAnyTextAsWords) {
  fill(store());
  for (const char* words : {"\"", "\" OR 1", "NEAR(", "a AND b", "*", "blue*", "-", "(", "words:blue",
                            "'; DROP TABLE job", "\xE2\x80\x9C", "^", "\\", "%", "_"}) {
    EXPECT_NO_THROW(store().jobs({.words = words})) << words;
    EXPECT_NO_THROW(store().known_parts(words, 10)) << words;
  }
  EXPECT_EQ(found(store(), "\"blue\" -"), (std::vector<std::int64_t>{1}));
}

TEST_P(StoreContract, ASearchFollowsChangesOfTheJobAndOfItsWorkersName) {
  fill(store());
  auto changed = job(10, 1, "red hatchback");
  store().transact([&] {
    store().put(changed);
    store().put(person(1, "Tomasz Wren"));
  });
  EXPECT_EQ(found(store(), "hatch tomasz").size(), 1U);
  EXPECT_EQ(found(store(), "estate").size(), 0U);
  EXPECT_EQ(found(store(), "maya").size(), 0U);
}

TEST_P(StoreContract, APageStopsAtItsLimitAndTellsTheTotal) {
  fill(store());
  store().transact([&] {
    for (std::uint32_t k = 2; k <= 30; ++k) store().put(job(1000 + k, k));
  });
  const auto page = store().jobs({.words = "estate", .limit = 10, .offset = 25});
  EXPECT_EQ(page.total, 30);
  ASSERT_EQ(page.lines.size(), 5U);
  EXPECT_EQ(page.lines[0].job.number, 5);
  EXPECT_EQ(page.lines[4].parts.size(), 1U);
  EXPECT_EQ(page.lines[0].worker_name, "Maya Okonjo");
}

TEST_P(StoreContract, EntriesOfASpanAreThisShopsOwn) {
  fill(store());
  const auto at = [](std::int64_t hours) { return kMorning + std::chrono::hours(hours); };
  const auto tell = [&](std::uint32_t number, const std::string& kind, UtcTime when, const std::string& detail = "{}") {
    Change entry = change(number, id(10), id(10));
    entry.kind = kind;
    entry.at = when;
    entry.detail_json = detail;
    store().append(entry);
  };
  store().transact([&] {
    tell(60, "reading.added", at(-1));
    tell(61, "reading.added", at(0));
    tell(62, "journal.brought", at(1), R"({"entries":2})");
    tell(63, "reading.added", at(1));
    tell(64, "reading.added", at(0));
    tell(65, "reading.withdrawn", at(1));
    tell(66, "reading.added", at(2));
  });
  std::vector<Uuid> found;
  for (const Change& entry : store().own_changes(at(0), at(2))) found.push_back(entry.id);
  EXPECT_EQ(found, (std::vector{id(61), id(62), id(65)}));
}

}  // namespace
}  // namespace brakewright::shop
