#include <gtest/gtest.h>

#include <cstdio>
#include <map>

#include "core/gauge_study/anova.hpp"
#include "tests/outside/table.hpp"

namespace brakewright::outside {
namespace {

/// @param offset  digits before the point, instead of the file's own 1, when not empty
std::vector<std::vector<double>> groups_of(const Table& data, const std::string& offset = "") {
  std::map<int, std::vector<double>> by_group;
  for (std::size_t row = 0; row < data.size(); ++row) {
    std::string y = data.text(row, "y");
    if (!offset.empty()) {
      if (y.rfind("1.", 0) != 0) throw std::runtime_error("a value that does not begin with 1.: " + y);
      y = offset + y.substr(1);
    }
    by_group[std::stoi(data.text(row, "group"))].push_back(std::stod(y));
  }
  std::vector<std::vector<double>> groups;
  for (auto& [group, values] : by_group) groups.push_back(std::move(values));
  return groups;
}

struct Set {
  const char* file;
  const char* dataset;
  double least_digits;
  const char* offset = "";
  const char* certified_as = "";  ///< another set's certified values, which an offset does not change
};

class StrdAnova : public testing::TestWithParam<Set> {};

// Source: NIST Statistical Reference Datasets, one-way analysis of variance. SmLs04 and 05 lie at 1000000.4 and SmLs07
// at 1000000000000.4: the doubles nearest to such decimals hold about 9 and 2 digits of the scatter, and no more can
// come out. SmLs06, 08 and 09 are SmLs03, 02 and 03 with the digits before the point changed, as 04, 05 and 07 are 01,
// 02 and 01 (so in the files here); their certified values are therefore the same.
TEST_P(StrdAnova, TableIsThatCertified) {
  const Table certified("strd_anova_certified.csv");
  const Anova table = one_way_anova(groups_of(Table(GetParam().file), GetParam().offset));
  const std::string dataset = *GetParam().certified_as != 0 ? GetParam().certified_as : GetParam().dataset;
  const auto expected = [&](const char* quantity) { return certified.certified(dataset, quantity, "certified"); };
  EXPECT_EQ(table.df_between, expected("df_between"));
  EXPECT_EQ(table.df_within, expected("df_within"));
  const std::pair<const char*, double> found[] = {
      {"ss_between", table.ss_between},  {"ss_within", table.ss_within},   {"ms_between", table.ms_between},
      {"ms_within", table.ms_within},    {"f_statistic", table.f.value()}, {"r_squared", table.r_squared.value()},
      {"residual_sd", table.residual_sd}};
  double least = 15.0;
  for (const auto& [quantity, value] : found) {
    const double digits = matching_digits(value, expected(quantity));
    EXPECT_GE(digits, GetParam().least_digits) << quantity;
    least = std::min(least, digits);
  }
  std::printf("%-7s matching digits, least over the table: %.1f\n", GetParam().dataset, least);
}

INSTANTIATE_TEST_SUITE_P(
    Sets, StrdAnova,
    testing::Values(Set{"strd_anova_sirstv.csv", "SiRstv", 12.0}, Set{"strd_anova_smls01.csv", "SmLs01", 14.0},
                    Set{"strd_anova_smls02.csv", "SmLs02", 14.0}, Set{"strd_anova_smls03.csv", "SmLs03", 14.0},
                    Set{"strd_anova_smls04.csv", "SmLs04", 9.0}, Set{"strd_anova_smls05.csv", "SmLs05", 9.0},
                    Set{"strd_anova_smls03.csv", "SmLs06", 9.0, "1000000", "SmLs03"},
                    Set{"strd_anova_smls07.csv", "SmLs07", 2.0},
                    Set{"strd_anova_smls02.csv", "SmLs08", 2.0, "1000000000000", "SmLs02"},
                    Set{"strd_anova_smls03.csv", "SmLs09", 2.0, "1000000000000", "SmLs03"},
                    Set{"strd_anova_atmwtag.csv", "AtmWtAg", 9.0}),
    [](const auto& set) { return std::string(set.param.dataset); });

TEST(StrdAnovaOffsets, TheSetsAtAnOffsetAreThoseWithoutIt) {
  const auto same = [](const char* near, const char* far, const char* offset) {
    return groups_of(Table(near), offset) == groups_of(Table(far));
  };
  EXPECT_TRUE(same("strd_anova_smls01.csv", "strd_anova_smls04.csv", "1000000"));
  EXPECT_TRUE(same("strd_anova_smls02.csv", "strd_anova_smls05.csv", "1000000"));
  EXPECT_TRUE(same("strd_anova_smls01.csv", "strd_anova_smls07.csv", "1000000000000"));
}

// Source: the same set; 1e12 + d is exact in steps of 2^-13, so that the sums of what the doubles hold are whole
// numbers.
TEST(StrdAnovaExact, SmLs07KeepsEveryDigitThatItsDoublesHold) {
  const auto groups = groups_of(Table("strd_anova_smls07.csv"));
  long double within = 0.0L;
  long double total = 0.0L;
  long long grand_sum = 0;
  long long grand_squares = 0;
  long long count = 0;
  for (const auto& group : groups) {
    long long sum = 0;
    long long squares = 0;
    for (const double value : group) {
      const auto steps = static_cast<long long>((value - 1e12) * 8192.0);
      ASSERT_EQ(static_cast<double>(steps) / 8192.0 + 1e12, value);
      sum += steps;
      squares += steps * steps;
    }
    const auto size = static_cast<long long>(group.size());
    within += static_cast<long double>(size * squares - sum * sum) / static_cast<long double>(size);
    grand_sum += sum;
    grand_squares += squares;
    count += size;
  }
  total = static_cast<long double>(count * grand_squares - grand_sum * grand_sum) / static_cast<long double>(count);
  const long double step_squared = 8192.0L * 8192.0L;
  const Anova table = one_way_anova(groups);
  EXPECT_GE(matching_digits(table.ss_within, static_cast<double>(within / step_squared)), 14.0);
  EXPECT_GE(matching_digits(table.ss_between, static_cast<double>((total - within) / step_squared)), 14.0);
}

}  // namespace
}  // namespace brakewright::outside
