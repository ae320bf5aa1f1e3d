#include "shop/hands.hpp"

#include "tests/shop/school/schoolroom.hpp"

namespace brakewright::shop {
namespace {

class OwnHands : public Schoolroom {
 protected:
  void read_round(const JobFile& file, const Uuid& person) {
    for (std::int64_t point = 0; point < 8; ++point) {
      shop.add_reading(file.job.id, figure(file, point, "21.50"), person);
    }
  }

  std::string own(const JobFile& file) {
    const auto assessed = shop.assessment(file.job.id);
    for (const Advice& advice : assessed.parts.at(0).before.thickness->advice) {
      if (advice.code == "own_uncertainty") return advice.text;
    }
    return "";
  }

  double u_min(const JobFile& file) { return shop.assessment(file.job.id).parts.at(0).before.thickness->u_min_mm; }

  void close(Study study) {
    clock += std::chrono::hours(1);
    study.closed = true;
    school.put_study(study, teacher);
    clock += std::chrono::hours(1);
  }
};

TEST_F(OwnHands, CountFromTheDayTheStudyWasClosed) {
  const JobFile before = open(), after = open();
  read_round(before, students[0]);
  const double as_instrument = u_min(before);
  const Study study = small_study(3);
  read_all(study, students[0], -14, 6);
  read_all(study, students[1], 0, 1);
  close(study);
  read_round(after, students[0]);
  EXPECT_EQ(own(before), "");
  EXPECT_EQ(u_min(before), as_instrument) << "read before the study was closed";
  EXPECT_NE(own(after).find("Bo Fern"), std::string::npos);
  EXPECT_GT(u_min(after), 2 * as_instrument);
}

TEST_F(OwnHands, AreOffAlikeHoweverOftenTheyReadASpot) {
  const Study study = small_study(5);
  read_all(study, students[0], -14, 1);
  read_all(study, students[1], 0, 1);
  close(study);
  const JobFile once = open(), often = open(), steady = open();
  read_round(once, students[0]);
  for (int round = 0; round < 5; ++round) read_round(often, students[0]);
  read_round(steady, students[1]);
  EXPECT_GT(u_min(once), 0.0135);
  EXPECT_GT(u_min(often), 0.0135) << "14 um of bias, which no repeating takes away";
  EXPECT_LT(u_min(steady), 0.004);
}

TEST_F(OwnHands, ThatScatterGetBetterByReadingASpotOften) {
  const Study study = small_study(5);
  read_all(study, students[0], 0, 8);
  read_all(study, students[1], 0, 1);
  close(study);
  const JobFile once = open(), often = open();
  read_round(once, students[0]);
  for (int round = 0; round < 5; ++round) read_round(often, students[0]);
  EXPECT_LT(u_min(often), u_min(once));
}

}  // namespace
}  // namespace brakewright::shop
