#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/cut_input.hpp"
#include "calc/methods.hpp"
#include "calc/reader.hpp"
#include "core/cutting/finish.hpp"
#include "core/cutting/force.hpp"
#include "core/cutting/plan.hpp"

namespace brakewright::calc {
namespace {

void read_lathe(Reader lathe, cutting::PlanInput& in) {
  in.speeds_rpm = lathe.numbers("speeds_rpm");
  in.feeds_mm_per_rev = lathe.numbers("feeds_mm_per_rev");
  read_dials(lathe, in);
  lathe.done();
}

Json written(const cutting::Pass& pass) {
  return {{"outboard_marks", pass.outboard_marks},
          {"inboard_marks", pass.inboard_marks},
          {"rpm", pass.rpm},
          {"feed_mm_per_rev", pass.feed_mm_per_rev},
          {"time_s", pass.time_s},
          {"ra_um", pass.ra_um},
          {"surface_speed_m_per_min", pass.surface_speed_m_per_min}};
}

}  // namespace

Json run_finish(const Json& input) {
  Reader reader(input);
  const double feed = reader.number("feed_mm_per_rev"), nose = reader.number("nose_radius_mm");
  const auto h_min = reader.optional_number("h_min_um");
  reader.done();
  const auto finish = cutting::finish(feed, nose, h_min);
  return {{"rt_um", finish.rt_um},
          {"ra_um", finish.ra_um},
          {"rt_exact_um", finish.rt_exact_um},
          {"ra_exact_um", finish.ra_exact_um},
          {"ra_low_um", finish.ra_low_um},
          {"ra_high_um", finish.ra_high_um},
          {"band_basis", "from memory, no source read"},
          {"rt_brammertz_um", or_null(finish.rt_brammertz_um)},
          {"feed_of_least_rt_mm_per_rev", or_null(finish.feed_of_least_rt_mm_per_rev)}};
}

Json run_force(const Json& input) {
  Reader reader(input);
  cutting::NoseCut cut;
  cut.depth_mm = reader.number("depth_mm");
  cut.feed_mm_per_rev = reader.number("feed_mm_per_rev");
  cut.nose_radius_mm = reader.number("nose_radius_mm");
  cut.kc11_n_per_mm2 = reader.number_or("kc11_n_per_mm2", cut.kc11_n_per_mm2);
  cut.mc = reader.number_or("mc", cut.mc);
  cut.surface_speed_m_per_min = reader.number_or("surface_speed_m_per_min", 0);
  reader.done();
  const auto force = cutting::nose_force(cut);
  return {{"chip_area_mm2", force.chip_area_mm2},
          {"contact_mm", force.contact_mm},
          {"h_max_um", force.h_max_um},
          {"force_n", force.force_n},
          {"power_w", force.power_w},
          {"mean_cos", force.mean_cos},
          {"force_low_n", force.force_low_n},
          {"force_high_n", force.force_high_n},
          {"extrapolated", force.extrapolated}};
}

Json run_cutplan(const Json& input) {
  Reader reader(input);
  cutting::PlanInput in;
  read_ring(reader.object("ring"), in);
  Reader needed = reader.object("needed_um");
  in.needed_outboard_um = needed.number("outboard");
  in.needed_inboard_um = needed.number("inboard");
  needed.done();
  in.start_min_mm = reader.number("start_min_mm");
  in.machine_to_mm = reader.optional_number("machine_to_mm");
  read_lathe(reader.object("lathe"), in);
  read_insert(reader.object("insert"), in);
  read_rules(reader.object("rules"), in);
  reader.done();
  const auto plan = cutting::plan(in);
  Json passes = Json::array();
  for (const auto& pass : plan.passes) passes.push_back(written(pass));
  return {{"passes", passes}, {"time_s", plan.time_s}, {"final_mm", plan.final_mm}};
}

}  // namespace brakewright::calc
