#include <algorithm>

#include "report/content/figures.hpp"
#include "report/content/names.hpp"
#include "report/content/on_car.hpp"
#include "shop/words.hpp"

namespace brakewright::report {

namespace {

const shop::Refit* last_with_torque(const shop::JobFile& file) {
  const auto found = std::find_if(file.refits.rbegin(), file.refits.rend(),
                                  [](const shop::Refit& refit) { return refit.nut_torque_nm.has_value(); });
  return found == file.refits.rend() ? nullptr : &*found;
}

std::string nuts_again(const shop::JobFile& file) {
  const shop::Refit* refit = last_with_torque(file);
  const std::string torque =
      refit == nullptr
          ? "the torque of the vehicle's handbook"
          : deviation_figure(*refit->nut_torque_nm, 0) + " N·m (" +
                (refit->torque_source.empty() ? "check it in the vehicle's handbook" : refit->torque_source) + ")";
  return "After 80 to 160 km (50 to 100 miles) have the wheel nuts checked by hand with a torque wrench: " + torque +
         ".";
}

}  // namespace

std::optional<DriverCardContent> driver_card_of(const RecordInput& input) {
  const shop::JobFile& file = input.file;
  if (file.refits.empty()) return std::nullopt;
  DriverCardContent card{.title = "For the driver: the first kilometres"};
  card.of = file.job.vehicle + ", " + spoken(shop::word_of(file.job.axle)) + " brakes, job " +
            std::to_string(file.job.number) + " of " + input.settings.shop_name + ", " +
            time_figure(file.refits.back().at, input.local_clock).substr(0, 10);
  card.steps = {
      "Before the vehicle moves: press the pedal several times until it is high and firm. If it stays soft or sinks, "
      "do "
      "not drive; tell the shop.",
      "First at walking pace, in a safe place: brake gently. The vehicle must stop straight, without noise.",
      "Then bed in where the traffic allows it: about ten steady, moderate stops from some 50 km/h down to 10 km/h, "
      "with "
      "half a minute of driving between them to cool. Do not stand still with the pedal pressed while the brakes are "
      "hot: the pad leaves its print on the disc.",
      "For the first 300 km avoid hard and long braking unless you have to. In an emergency always brake as hard as "
      "needed.",
      nuts_again(file)};
  card.watch =
      "Stop where it is safe and call the shop at once if the pedal travels further or sinks, a warning lamp comes on, "
      "the vehicle pulls to one side, or something scrapes, smells or shakes.";
  card.basis =
      "Common practice, no source. What the maker of the pads and the vehicle's own instructions say comes first "
      "wherever it differs, and so do traffic law and local rules.";
  return card;
}

}  // namespace brakewright::report
