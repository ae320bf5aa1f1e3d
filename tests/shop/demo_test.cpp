#include "shop/demo/demo.hpp"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "shop/json.hpp"
#include "shop/seal.hpp"
#include "shop/states.hpp"
#include "store/open.hpp"
#include "tests/shop/classroom.hpp"

namespace brakewright::shop {
namespace {

constexpr UtcTime kNow = UtcTime(std::chrono::sys_days(std::chrono::year(2026) / 6 / 24)) + std::chrono::hours(10);

/// One demo shop for all tests of it: making one draws some hundred verdicts.
class Demo : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    store_ = store::open_in_memory().release();
    make_demo(*store_, 1, kNow, {});
  }
  static void TearDownTestSuite() {
    delete store_;
    store_ = nullptr;
  }

  std::vector<JobFile> files(std::optional<JobState> state) {
    std::vector<JobFile> found;
    for (const auto& line : store_->jobs({.state = state, .words = "", .limit = 500}).lines) {
      found.push_back(*store_->job_file(line.job.id));
    }
    return found;
  }

  static Store* store_;
};

Store* Demo::store_ = nullptr;

TEST_F(Demo, HasASchoolWithItsPeopleInstrumentsAndLathes) {
  EXPECT_TRUE(store_->settings().demo);
  EXPECT_EQ(store_->lathes().size(), 3U);
  EXPECT_GE(store_->instruments().size(), 8U);
  EXPECT_GE(store_->people().size(), 9U);
  EXPECT_EQ(files(JobState::sealed).size(), 40U);
  EXPECT_EQ(files(JobState::open).size(), 6U);
}

TEST_F(Demo, ItsOpenJobsWaitForSixDifferentThings) {
  std::set<WaitsFor> waits;
  for (const JobFile& file : files(JobState::open)) waits.insert(waits_for(file));
  using enum WaitsFor;
  EXPECT_EQ(waits, (std::set{limits, findings, readings, decision, readings_after, seal}));
}

TEST_F(Demo, ItsSealsHoldAndItsTimesRunForward) {
  UtcTime last{};
  auto sealed = files(JobState::sealed);
  std::reverse(sealed.begin(), sealed.end());
  for (const JobFile& file : sealed) {
    EXPECT_EQ(file.job.seal_sha256, seal_of(file)) << file.job.number;
    EXPECT_GT(file.job.opened_at, last);
    EXPECT_GT(*file.job.sealed_at, file.job.opened_at);
    EXPECT_LT(*file.job.sealed_at, kNow);
    last = file.job.opened_at;
  }
  for (const Change& change : store_->changes(0, 100'000, {})) EXPECT_LE(change.at, kNow) << change.kind;
}

TEST_F(Demo, ItHasEveryKindOfEndAndOfSecondThought) {
  std::map<Action, int> decided;
  int overruled = 0;
  int confirmed = 0;
  int superseded = 0;
  int withdrawn = 0;
  int amended = 0;
  for (const JobFile& file : files(JobState::sealed)) {
    ++decided[file.decisions.back().action];
    overruled += file.decisions.back().action != file.decisions.back().computed_action ? 1 : 0;
    amended += static_cast<int>(file.amendments.size());
    const auto states = states_of(file.readings);
    for (std::size_t k = 0; k < states.size(); ++k) {
      superseded += states[k] == ReadingState::superseded ? 1 : 0;
      withdrawn += states[k] == ReadingState::withdrawn ? 1 : 0;
      confirmed += file.readings[k].confirmed_doubts.empty() ? 0 : 1;
    }
  }
  EXPECT_GE(decided[Action::cut], 8);
  EXPECT_GE(decided[Action::leave], 4);
  EXPECT_GE(decided[Action::replace], 6);
  EXPECT_GE(overruled, 1);
  EXPECT_GE(confirmed, 1);
  EXPECT_LE(confirmed, 20);
  EXPECT_GE(superseded, 3);
  EXPECT_GE(withdrawn, 2);
  EXPECT_EQ(amended, 2);
}

TEST_F(Demo, ItGoesIntoAnEmptyShopOnlyAndIsTheSameForTheSameSeed) {
  EXPECT_THROW(make_demo(*store_, 1, kNow, {}), RuleError);
  const auto again = store::open_in_memory();
  make_demo(*again, 1, kNow, {});
  EXPECT_EQ(again->changes(0, 100'000, {}), store_->changes(0, 100'000, {}));
}

using Practice = Classroom;

TEST_F(Practice, APracticeJobWaitsForADecisionWithAllItsReadings) {
  const auto file = open_practice_job(shop, teacher, 3, clock);
  EXPECT_EQ(file.job.complaint, Complaint::practice);
  EXPECT_EQ(waits_for(file), WaitsFor::decision);
  for (const Reading& reading : file.readings) EXPECT_TRUE(reading.confirmed_doubts.empty()) << reading.value.text;
  EXPECT_TRUE(shop.assessment(file.job.id).verdict);
  EXPECT_NE(open_practice_job(shop, teacher, 4, clock).job.id, file.job.id);
}

}  // namespace
}  // namespace brakewright::shop
