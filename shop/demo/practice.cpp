#include "shop/demo/practice.hpp"

#include <memory>
#include <nlohmann/json.hpp>

#include "core/mount/mount.hpp"
#include "shop/demo/school.hpp"
#include "shop/practice/act_json.hpp"
#include "shop/practice/practice.hpp"

namespace brakewright::shop {
namespace {

using demo::Clock;

constexpr std::uint64_t kPracticeStream = 91;

/// An invented student at a simulated bench.
class BenchStudent {
 public:
  BenchStudent(Practice& practice, Clock& clock, PracticeFile file) : practice_(practice), clock_(clock), file_(file) {}

  void act(const practice::Act& act) {
    clock_.pass(20);
    practice_.act(file_.line.run.id, {++done_, act_to_json(act).dump()}, file_.line.run.person_id);
  }

  void look_and_measure(int points) {
    const std::string& fine = file_.bench.instruments.front().id;
    const auto& shape = file_.bench.make.shape;
    const double middle_mm = (shape.band_inner_radius_mm + shape.band_outer_radius_mm) / 2;
    act(practice::Wear{});
    act(practice::Look{});
    act(practice::ZeroMicrometer{fine});
    for (int k = 0; k < points; ++k) act(practice::Measure{fine, middle_mm, 360.0 * k / points});
  }

  void mount() {
    const auto& bench = file_.bench;
    act(practice::Decide{practice::Action::cut});
    act(practice::Wipe{});
    act(practice::MountPart{
        .pieces = mount::find_stacks(bench.lathe.arbor, bench.make.shape.seat, bench.pieces, 1).stacks.at(0).pieces});
    act(practice::Band{});
    act(practice::Spindle{bench.lathe.speeds_rpm.front()});
  }

 private:
  Practice& practice_;
  Clock& clock_;
  PracticeFile file_;
  std::int64_t done_ = 0;
};

std::vector<Uuid> active_of(Shop& shop, Role role) {
  std::vector<Uuid> found;
  for (const Person& person : shop.people()) {
    if (person.role == role && person.active) found.push_back(person.id);
  }
  return found;
}

}  // namespace

void make_demo_practice(Store& store, PracticeStore& practice_store, PracticeBook& book, std::uint64_t seed,
                        UtcTime now) {
  Clock clock{now - std::chrono::hours(2)};
  auto dice = std::make_shared<Random>(seed, kPracticeStream);
  const Surroundings around{.now = [&clock] { return clock.now; },
                            .random =
                                [dice](std::span<std::uint8_t> bytes) {
                                  for (auto& byte : bytes) byte = static_cast<std::uint8_t>(dice->below(256));
                                }};
  Shop shop(store, around);
  Practice practice(shop, practice_store, book, around, 1);
  const Uuid teacher = active_of(shop, Role::teacher).at(0);
  const auto students = active_of(shop, Role::student);
  const Uuid set = shop.new_id();
  practice.put_set(set,
                   {.name = "Is it worth cutting?",
                    .seed = 1107,
                    .difficulty = 1,
                    .faults = std::vector<std::string>{"wobble"},
                    .open = true},
                   teacher);
  const auto begin = [&](std::size_t who, std::optional<Uuid> of_set, std::int64_t difficulty) {
    clock.pass(120);
    return BenchStudent(
        practice, clock,
        practice.begin({.difficulty = difficulty, .set_id = of_set}, students.at(who % students.size())));
  };
  const Uuid hubs = shop.new_id();
  practice.put_set(hubs,
                   {.name = "A disc with its hub",
                    .seed = 1108,
                    .difficulty = 2,
                    .faults = std::vector<std::string>{"wobble", "pitted_races"},
                    .open = true},
                   teacher);
  BenchStudent quick = begin(0, set, 1);
  quick.look_and_measure(2);
  quick.act(practice::Decide{practice::Action::leave});
  quick.act(practice::Finish{});
  BenchStudent careful = begin(1, set, 1);
  careful.look_and_measure(12);
  careful.mount();
  careful.act(practice::Spindle{0});
  careful.act(practice::Unmount{});
  careful.act(practice::Finish{});
  BenchStudent at_hub = begin(3, hubs, 2);
  at_hub.look_and_measure(12);
  at_hub.act(practice::RenewRaces{});
  at_hub.mount();
  at_hub.act(practice::Spindle{0});
  at_hub.act(practice::Unmount{});
  at_hub.act(practice::Finish{});
  BenchStudent careless = begin(2, std::nullopt, 2);
  careless.look_and_measure(4);
  careless.mount();
  careless.act(practice::Reach{});
}

}  // namespace brakewright::shop
