#include "shop/school/queue.hpp"

#include "tests/shop/school/schoolroom.hpp"
#include "tests/shop/watched_store.hpp"

namespace brakewright::shop {
namespace {

class Queue : public Schoolroom {
 protected:
  /// A finished job whose parts took so many minutes from mount to last pass, so many of them cutting.
  JobFile finished(double whole_min, double cut_min) {
    JobFile file;
    Part part;
    part.id = id();
    file.parts = {part};
    const auto minutes = [](double count) { return std::chrono::milliseconds(std::llround(count * 60'000)); };
    file.mounts = {Mount{.id = id(), .part_id = part.id, .lathe_id = lathe, .at = clock}};
    Pass pass{.id = id(), .part_id = part.id};
    pass.ended_at = clock + minutes(whole_min);
    pass.began_at = pass.ended_at - minutes(cut_min);
    file.passes = {pass};
    return file;
  }

  LatheQueue join(const JobFile& file, const Uuid& person) {
    clock += std::chrono::minutes(1);
    return school.join_queue(lathe, {.id = id(), .job_id = file.job.id, .person_id = person}, person);
  }
};

TEST_F(Queue, TakesTheLathesOwnTimesOnceItKnowsThemOfFiveParts) {
  std::vector<PartTime> parts;
  const auto add_finished = [&](double whole_min, double cut_min) {
    for (const PartTime& time : part_times(finished(whole_min, cut_min))) parts.push_back(time);
  };
  for (const double whole : {20, 22, 24, 30}) add_finished(whole, 5);
  EXPECT_EQ(lathe_times(parts, lathe).parts, 0U);
  EXPECT_EQ(lathe_times(parts, lathe).handling_quartiles_min, std::nullopt);
  add_finished(26, 8);
  add_finished(2'000, 5);  // stood over night
  const LatheTimes times = lathe_times(parts, lathe);
  EXPECT_EQ(times.parts, 5U);
  EXPECT_DOUBLE_EQ(times.handling_min, 18) << "median of 15, 17, 19, 25 and 18";
  EXPECT_DOUBLE_EQ(times.cut_min, 5);
  EXPECT_EQ(times.handling_quartiles_min, (Quartiles{17, 19}));
  EXPECT_EQ(times.cut_quartiles_min, (Quartiles{5, 5}));
  EXPECT_EQ(lathe_times(parts, id()).parts, 0U) << "another lathe";
}

TEST_F(Queue, TakesNoTimeOfAPartThatWasMountedOnTwoLathes) {
  JobFile file = finished(20, 5);
  EXPECT_EQ(part_times(file).size(), 1U);
  Mount second = file.mounts.front();
  second.lathe_id = id();
  file.mounts.push_back(second);
  EXPECT_TRUE(part_times(file).empty());
}

TEST_F(Queue, ReadsASealedJobOnceForItsTimes) {
  store->transact([&] {
    for (std::int64_t number = 1; number <= 5; ++number) {
      JobFile file = finished(20, 5);
      file.job = {.id = id(), .number = number, .state = JobState::sealed, .opened_by_person_id = teacher};
      file.job.opened_at = file.job.changed_at = clock;
      file.parts.front().job_id = file.job.id;
      file.mounts.front().job_id = file.passes.front().job_id = file.job.id;
      file.mounts.front().by_person_id = file.passes.front().by_person_id = teacher;
      store->put(file.job);
      store->put(file.parts.front());
    }
  });
  WatchedStore watched(*store);
  Shop over(watched, {.now = [this] { return clock; },
                      .random = [](std::span<std::uint8_t> bytes) { std::fill(bytes.begin(), bytes.end(), 9); }});
  School school_over(over, *school_store, [this] { return clock; });
  const auto read = [&] {
    const auto before = watched.jobs_read;
    school_over.queue(lathe);
    // What the shop itself remembers of its jobs goes with a change that fails.
    EXPECT_THROW(over.batch([] { throw RuleError("no", "", "no"); }), RuleError);
    return watched.jobs_read - before;
  };
  EXPECT_EQ(read(), 5);
  EXPECT_EQ(read(), 0);
}

TEST_F(Queue, CountsThePartsThatAreNotCutByTheirPasses) {
  JobFile file = open(2);
  const LatheTimes times{.handling_min = 10, .cut_min = 4};
  EXPECT_DOUBLE_EQ(minutes_left(file, {{file.parts[0].id, 180}}, times).middle, 10 + 3 + 10 + 4);
  EXPECT_EQ(minutes_left(file, {}, times).quartiles, std::nullopt);
  const LatheTimes known{.handling_min = 10,
                         .cut_min = 4,
                         .handling_quartiles_min = Quartiles{8, 15},
                         .cut_quartiles_min = Quartiles{3, 6}};
  EXPECT_EQ(minutes_left(file, {{file.parts[0].id, 180}}, known).quartiles,
            (Quartiles{8 + 3 + 8 + 3, 15 + 3 + 15 + 6}));
  file.cuts.push_back({.part_id = file.parts[0].id});
  EXPECT_DOUBLE_EQ(minutes_left(file, {{file.parts[0].id, 180}}, times).middle, 14);
}

TEST_F(Queue, StandsInTheOrderOfComingAndSaysWhenEachIsAboutToBegin) {
  const JobFile first = open(), second = open(2);
  join(first, students[0]);
  const LatheQueue queue = join(second, students[1]);
  ASSERT_EQ(queue.lines.size(), 2U);
  EXPECT_EQ(queue.lines[0].job_number, first.job.number);
  EXPECT_EQ(queue.lines[0].starts_in_minutes, 0);
  EXPECT_DOUBLE_EQ(queue.lines[0].minutes, 21) << "the usual times";
  EXPECT_FALSE(queue.lines[0].rests_on_plans);
  EXPECT_DOUBLE_EQ(queue.lines[1].starts_in_minutes, 21);
  EXPECT_DOUBLE_EQ(queue.lines[1].minutes, 42);
  EXPECT_FALSE(queue.lines[1].meanwhile.empty());
}

TEST_F(Queue, HoldsAJobOnceAndLetsItGo) {
  const JobFile job = open();
  const NewQueueEntry wanted{.id = id(), .job_id = job.job.id, .person_id = students[0]};
  school.join_queue(lathe, wanted, students[0]);
  EXPECT_EQ(school.join_queue(lathe, wanted, students[0]).lines.size(), 1U) << "sent twice";
  EXPECT_EQ(refusal([&] { join(job, students[1]); }), "waits_already");
  EXPECT_EQ(refusal([&] { school.leave_queue(lathe, wanted.id, "mine is urgent", students[1]); }), "not_yours");
  EXPECT_TRUE(school.leave_queue(lathe, wanted.id, "the customer waits", teacher).lines.empty());
  EXPECT_EQ(join(job, students[1]).lines.size(), 1U);
}

TEST_F(Queue, TellsTheWaitingWhatTheyCanDo) {
  EXPECT_EQ(meanwhile(WaitsFor::readings, true, true), "Measure the parts.");
  EXPECT_NE(meanwhile(WaitsFor::cut, true, true).find("safety points"), std::string::npos);
  EXPECT_NE(meanwhile(WaitsFor::cut, true, false).find("study"), std::string::npos);
  EXPECT_NE(meanwhile(WaitsFor::cut, false, false).find("Clean"), std::string::npos);
}

TEST_F(Queue, LeavesOutWhatNeedsTheLatheNoMore) {
  const JobFile job = open();
  EXPECT_TRUE(needs_lathe(job, WaitsFor::cut));
  EXPECT_FALSE(needs_lathe(job, WaitsFor::readings_after));
}

}  // namespace
}  // namespace brakewright::shop
