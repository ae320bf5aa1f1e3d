#include "core/practice/run.hpp"

#include <algorithm>
#include <cmath>

#include "core/bench_sim/cut/sound.hpp"
#include "core/input_error.hpp"
#include "core/practice/state.hpp"
#include "core/want.hpp"

namespace brakewright::practice {

struct Run::State : BenchState {
  using BenchState::BenchState;
};

Run::Run(const Exercise& exercise) : state_(std::make_unique<State>(exercise)) {}
Run::~Run() = default;
Run::Run(Run&&) noexcept = default;
Run& Run::operator=(Run&&) noexcept = default;

const Bench& Run::bench() const { return state_->bench; }

Outcome Run::apply(const Act& act) {
  State& state = *state_;
  if (state.ended) throw InputError("ended", "do", "must not come after the run has ended");
  Done done{.act = act, .temperature_c = state.temperature_c()};
  const std::int64_t before = state.ticks;
  done.outcome = std::visit([&](const auto& one) { return act_on(state, one); }, act);
  done.outcome.took_s = static_cast<double>(state.ticks - before) / static_cast<double>(kTicks_per_s);
  done.clock_s = state.clock_s();
  done.mounting = state.mounted ? state.mounted->number : 0;
  done.removed_mm3 = state.removed_so_far_mm3();
  if (std::holds_alternative<Turns>(act) && state.feed_mm_per_rev == 0) {
    done.touch_share = std::max(state.tools[0].felt.contact_share, state.tools[1].felt.contact_share);
  }
  if (const auto* measure = std::get_if<Measure>(&act)) {
    done.zeroed = std::find(state.zeroed.begin(), state.zeroed.end(), measure->instrument_id) != state.zeroed.end();
  }
  if (std::holds_alternative<Measure>(act) || std::holds_alternative<ReadRunout>(act)) done.odd = state.odd;
  state.done.push_back(done);
  return done.outcome;
}

View Run::view() const {
  const State& state = *state_;
  View view;
  view.acts = static_cast<std::int64_t>(state.done.size());
  view.clock_s = state.clock_s();
  view.decided = state.decided;
  if (state.mounted) {
    view.mounted = state.mounted->pieces;
    view.turn_deg = state.mounted->turn_deg;
    view.nut_tight = state.mounted->nut_tight;
    view.turns = static_cast<double>(state.mounted->steps) / kAngles;
  }
  view.band = state.band;
  view.glasses = state.glasses;
  view.gloves = state.gloves;
  view.rpm = state.rpm;
  view.feed_mm_per_rev = state.feed_mm_per_rev;
  view.radius_mm = state.radius_mm;
  view.part_temperature_c = std::round(state.temperature_c() * 10) / 10;
  view.passes = state.passes;
  for (Side side : bench_sim::kSides) {
    const Tool& tool = state.tools[index(side)];
    ToolView& shown = side == Side::outboard ? view.outboard : view.inboard;
    shown = tool.felt;
    shown.dial_marks = tool.dial.marks;
    shown.locked = tool.locked;
  }
  view.refitted = state.refitted.has_value();
  view.ended = state.ended;
  return view;
}

Picture Run::picture(Side side, int angles, int rings) const {
  want(angles >= 36 && angles <= 720, "angles", "must be from 36 to 720");
  want(rings >= 8 && rings <= 128, "rings", "must be from 8 to 128");
  state_->settle();
  const auto& grid = state_->part.grid;
  const auto& face = state_->part.face(side);
  Picture picture{.angles = angles,
                  .rings = rings,
                  .inner_radius_mm = grid.inner_radius_mm,
                  .ring_step_mm = (grid.outer_radius_mm() - grid.inner_radius_mm) / (rings - 1)};
  picture.height_um.reserve(static_cast<std::size_t>(angles) * static_cast<std::size_t>(rings));
  for (int r = 0; r < rings; ++r) {
    const int ring = std::min(grid.rings - 1,
                              static_cast<int>(std::lround(static_cast<double>(r) * (grid.rings - 1) / (rings - 1))));
    for (int a = 0; a < angles; ++a) {
      const int angle = static_cast<int>(std::lround(static_cast<double>(a) * grid.angles / angles)) % grid.angles;
      picture.height_um.push_back(face.height_um[grid.at(ring, angle)]);
    }
  }
  return picture;
}

std::vector<float> Run::sound(double seconds, int rate_hz) const {
  want(seconds, 0.05, 10, "seconds", "must be from 0.05 to 10");
  want(rate_hz >= 4000 && rate_hz <= 192000, "rate_hz", "must be from 4000 to 192000");
  const Heard& heard = state_->heard;
  if (heard.thrust_n.empty()) return {};
  const auto most = static_cast<std::size_t>(seconds * heard.steps_per_s);
  const std::size_t count = std::min(most, heard.thrust_n.size());
  const std::span<const float> last(heard.thrust_n.data() + (heard.thrust_n.size() - count), count);
  bench_sim::SoundState state;
  return bench_sim::sound_of(last, heard.steps_per_s, {.rate_hz = rate_hz, .seed = state_->exercise.seed}, state);
}

Mark Run::mark() const {
  if (!state_->ended) throw InputError("not_yet", "", "must have ended before it is marked");
  return mark_of(*state_);
}

}  // namespace brakewright::practice
