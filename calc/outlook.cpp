#include "core/chatter/outlook.hpp"

#include <nlohmann/json.hpp>

#include "calc/chatter_u.hpp"
#include "calc/methods.hpp"
#include "calc/reader.hpp"

namespace brakewright::calc {
namespace {

using namespace chatter;

RingTone read_ring(Reader reader) {
  const std::string by = reader.one_of("by", {"size", "tap", "marks"});
  const RingTone ring{.by = by == "tap"     ? RingKnownBy::tap
                            : by == "marks" ? RingKnownBy::marks
                                            : RingKnownBy::size,
                      .hz = reader.number("hz"),
                      .zeta = reader.number("zeta"),
                      .u_zeta = reader.number_or("u_zeta", 0),
                      .band_factor = reader.number("band_factor"),
                      .band_heard = reader.boolean_or("band_heard", false),
                      .heard_with_band = reader.boolean_or("heard_with_band", false)};
  reader.done();
  return ring;
}

Mode read_holder(Reader reader) {
  const Mode holder{
      .k_n_per_m = reader.number("k_n_per_m"), .zeta = reader.number("zeta"), .fn_hz = reader.number("fn_hz")};
  reader.done();
  return holder;
}

Json banded_json(const BandedLimit& limit) {
  Json json = json_of(limit.band);
  json["mm"] = limit.mm;
  return json;
}

const char* whose(bool of_the_disc) { return of_the_disc ? "disc" : "tools"; }

}  // namespace

Json run_outlook(const Json& input) {
  Reader reader(input);
  const OutlookInput asked{.outer_radius_mm = reader.number("outer_radius_mm"),
                           .inner_radius_mm = reader.number("inner_radius_mm"),
                           .thickness_mm = reader.number("thickness_mm"),
                           .ring = read_ring(reader.object("ring")),
                           .holder = read_holder(reader.object("holder")),
                           .feed_mm_per_rev = reader.number("feed_mm_per_rev"),
                           .nose_radius_mm = reader.number("nose_radius_mm"),
                           .banded = reader.boolean_or("banded", false),
                           .confidence = reader.number_or("confidence", OutlookInput{}.confidence),
                           .rpm = reader.numbers("rpm"),
                           .depths_mm = reader.optional_numbers("depths_mm").value_or(std::vector<double>{})};
  reader.done();
  const Outlook found = outlook_of(asked);
  Json at_speeds = Json::array();
  for (const auto& mm : found.limit_mm) at_speeds.push_back(mm ? Json(*mm) : Json(nullptr));
  return {{"disc", banded_json(found.disc)},
          {"tools", banded_json(found.tools)},
          {"limit", banded_json(found.least)},
          {"governed_by", whose(found.disc_governs)},
          {"sings_hz", found.sings_hz},
          {"bare_mm", found.bare_mm},
          {"banded_mm", found.banded_mm},
          {"worth", found.banded_mm / found.bare_mm},
          {"single_side_mm", found.single_side_mm},
          {"single_by", whose(found.single_by_disc)},
          {"limit_mm", at_speeds},
          {"p_sings", found.p_sings},
          {"quiet_mm", found.quiet_mm},
          {"sings_mm", found.sings_mm},
          {"counted_depth_mm", found.counted_depth_mm},
          {"kf_n_per_m2", found.kf_n_per_m2},
          {"k_disc_n_per_m", found.k_disc_n_per_m}};
}

}  // namespace brakewright::calc
