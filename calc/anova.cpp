#include "core/gauge_study/anova.hpp"

#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/methods.hpp"
#include "calc/reader.hpp"

namespace brakewright::calc {

Json run_anova(const Json& input) {
  Reader reader(input);
  const auto groups = reader.number_lists("groups");
  reader.done();

  const Anova table = one_way_anova(groups);
  return {{"ss_between", table.ss_between},
          {"ss_within", table.ss_within},
          {"df_between", table.df_between},
          {"df_within", table.df_within},
          {"ms_between", table.ms_between},
          {"ms_within", table.ms_within},
          {"f", or_null(table.f)},
          {"p", or_null(table.p)},
          {"r_squared", or_null(table.r_squared)},
          {"residual_sd", table.residual_sd},
          {"group_means", table.group_means}};
}

}  // namespace brakewright::calc
