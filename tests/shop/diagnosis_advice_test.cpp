#include "shop/diagnosis_advice.hpp"

#include <algorithm>

#include "tests/shop/on_car_scene.hpp"

namespace brakewright::shop {
namespace {

using diagnosis::Sign;

class DiagnosisAdviceTest : public OnCarScene {
 protected:
  PartDiagnosis diagnosed(const JobFile& file) { return shop.diagnosis(file.job.id).parts.at(0); }

  /// Cut, measured after, and back on the car with what its hub and its own face add.
  JobFile finished() {
    const JobFile file = decided();
    mount(file, ids_of(hang_a_stack()));
    prove(file, swing(file, "0.030"));
    shop.record_pass(file.job.id, pass_of(file, 2, 2), teacher);
    cut(file, 2, 2);
    measure(file, 21.4, 0.002, Stage::after);
    return shop.job_file(file.job.id);
  }

  static std::optional<double> value_of(const PartDiagnosis& part, Sign sign) {
    for (const JobSign& one : part.signs) {
      if (one.sign == sign) return one.value;
    }
    return {};
  }
};

TEST_F(DiagnosisAdviceTest, APartThatWasNotCutWaitsAndSaysForWhat) {
  const PartDiagnosis waiting = diagnosed(open(1));
  EXPECT_EQ(waiting.missing, (std::vector<std::string>{"cut", "readings_after"}));
  EXPECT_FALSE(waiting.found);
  EXPECT_TRUE(waiting.signs.empty());
}

TEST_F(DiagnosisAdviceTest, TheReadingsOfTheJobAreItsSigns) {
  const PartDiagnosis part = diagnosed(finished());
  ASSERT_TRUE(part.found);
  EXPECT_NEAR(value_of(part, Sign::variation).value(), 2, 1e-6);
  EXPECT_NEAR(value_of(part, Sign::variation_wave_1).value(), 1, 0.3);
  EXPECT_NEAR(value_of(part, Sign::bench_runout_before).value(), 30, 1e-6);
  EXPECT_TRUE(value_of(part, Sign::dial_difference));
  EXPECT_FALSE(value_of(part, Sign::car_runout)) << "not yet back on the car";
  EXPECT_FALSE(value_of(part, Sign::taper)) << "one circle alone";
  EXPECT_FALSE(value_of(part, Sign::howl));
  EXPECT_TRUE(part.found->next_check);
  for (const JobSign& sign : part.signs) EXPECT_FALSE(sign.from.empty());
}

TEST_F(DiagnosisAdviceTest, ALipThatIsFoundAfterTheCutIsASign) {
  const JobFile file = finished();
  const auto p_lip = [&] {
    const auto causes = diagnosed(file).found->causes;
    return std::find_if(causes.begin(), causes.end(), [](const auto& one) { return one.cause == practice::Fault::lip; })
        ->p;
  };
  const double before = p_lip();
  Finding lip{.id = id(), .job_id = file.job.id, .part_id = file.parts[0].id, .kind = FindingKind::rust_lip};
  clock += std::chrono::minutes(1);
  shop.add_finding(lip, teacher);
  EXPECT_EQ(value_of(diagnosed(file), Sign::lip_seen), 1);
  EXPECT_GT(p_lip(), 3 * before);
}

}  // namespace
}  // namespace brakewright::shop
